/* Worths of guillotine patterns: what the column generation asks the kernel (see line.c, tables.c, trace.c,
 * assemble.c). */
#ifndef CASEWRIGHT_PRICING_H
#define CASEWRIGHT_PRICING_H

#include <stddef.h>
#include <stdint.h>

#ifdef _WIN32
#define KERNEL_API __declspec(dllexport)
#else
#define KERNEL_API __attribute__((visibility("default")))
#endif

/* The sizes that matter along one side of a bin, in ascending order from nought to the whole side. */
typedef struct {
    int32_t count;
    int32_t even; /* every whole length is a size that matters, and so is its own index */
    const int32_t *first;  /* where the pairs of each size begin; one more at the end */
    const int32_t *pair;   /* indices of the two sizes it may be cut into, the smaller part first */
    const int32_t *across; /* index of what is left of the side beside it */
} Line;

/* An item as it may lie: a rectangle of at least these sizes (indices) holds it. */
typedef struct {
    int32_t x, y, kind, turned;
} Seed;

/* A few kinds of items are counted, the critical ones: a state is a number with a digit for each, how
 * many are at hand.  `digit` tells of each kind which digit it has, or -1. */
typedef struct {
    Line x, y;
    int32_t seeds;
    const Seed *seed;
    const float *worth; /* of each kind, a whole number */
    const int32_t *digit;
    int32_t digits;
    const int32_t *weight, *radix; /* of each digit */
    int32_t states;
    const int32_t *split_first, *split; /* all ordered pairs of states that make up each */
    const int32_t *holds_from; /* by state and length: the least width that holds all its items, or y.count */
    int32_t stride; /* floats from one length to the next in a table: y.count and EIGHT more at least */
} Grid;

enum { EIGHT = 8 };

static inline size_t place_of(const Grid *g, int32_t state, int32_t x, int32_t y) {
    return ((size_t)state * (size_t)g->x.count + (size_t)x) * (size_t)g->stride + (size_t)y;
}

static inline int32_t holds_from(const Grid *g, int32_t state, int32_t x) {
    return g->holds_from[(size_t)state * (size_t)g->x.count + (size_t)x];
}

static inline int at_hand(const Grid *g, int32_t state, int32_t digit) {
    return state / g->weight[digit] % g->radix[digit] > 0;
}

typedef struct {
    int32_t length, width, may_turn, count;
    float worth; /* a whole number */
} PricedItem;

#endif
