/* Tables of lengths that no cut leads from one to the other, filled side by side (see beside.c). */
#ifndef CASEWRIGHT_BESIDE_H
#define CASEWRIGHT_BESIDE_H

#include "pricing.h"

enum { BESIDE = 16, FEW = 4 };

typedef float Row[BESIDE];

typedef struct {
    const Grid *g;
    Row *row, *own; /* by state and width */
} Beside;

int beside_new(Beside *beside, const Grid *g);
void beside_free(Beside *beside);

/* Up to which length none is cut into one of `from` or beyond. */
int32_t beside_end(const Grid *g, int32_t from);

void beside_cut_along(const Beside *beside, float *table, int32_t from, int32_t end);
void beside_grow_along(const Beside *beside, const float *table, float *rest, int32_t from, int32_t end);

#endif
