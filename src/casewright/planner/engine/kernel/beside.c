/* Cuts along where few of the widths matter, so that the cells a cut refers to are scattered.
 *
 * The compiler cannot work on scattered cells eight at a time.  So lengths that do not depend on each
 * other are transposed into rows of BESIDE, one place for each, and filled side by side: the same cut for
 * all of them at once.
 */
#include "beside.h"

#include <stdlib.h>

int beside_new(Beside *beside, const Grid *g) {
    size_t rows = (size_t)g->states * (size_t)g->y.count;
    *beside = (Beside){g, malloc(rows * sizeof(Row)), malloc(rows * sizeof(Row))};
    if (beside->row && beside->own) return 1;
    beside_free(beside);
    return 0;
}

void beside_free(Beside *beside) {
    free(beside->row);
    free(beside->own);
    beside->row = beside->own = NULL;
}

int32_t beside_end(const Grid *g, int32_t from) {
    int32_t end = from + 1;
    for (; end < g->x.count && end - from < BESIDE; end++)
        for (int32_t p = g->x.first[end]; p < g->x.first[end + 1]; p++)
            if (g->x.pair[2 * p + 1] >= from) return end;
    return end;
}

static Row *row_of(const Grid *g, Row *row, int32_t state, int32_t y) {
    return &row[(size_t)state * (size_t)g->y.count + (size_t)y];
}

static inline void raise_row(float *restrict to, const float *a, const float *b, int32_t beside) {
    for (int32_t i = 0; i < beside; i++) {
        float sum = a[i] + b[i];
        to[i] = to[i] > sum ? to[i] : sum;
    }
}

static void raise_to(float *restrict to, const float *restrict a) {
    for (int32_t i = 0; i < BESIDE; i++) to[i] = to[i] > a[i] ? to[i] : a[i];
}

static void fetch(const Beside *b, const float *table, int32_t from, int32_t end) {
    for (int32_t state = 0; state < b->g->states; state++)
        for (int32_t y = 0; y < b->g->y.count; y++) {
            float *row = *row_of(b->g, b->row, state, y);
            for (int32_t x = from; x < end; x++) row[x - from] = table[place_of(b->g, state, x, y)];
            for (int32_t i = end - from; i < BESIDE; i++) row[i] = 0;
        }
}

static void put_back(const Beside *b, float *table, int32_t from, int32_t end) {
    for (int32_t state = 0; state < b->g->states; state++)
        for (int32_t y = 0; y < b->g->y.count; y++)
            for (int32_t x = from; x < end; x++)
                table[place_of(b->g, state, x, y)] = (*row_of(b->g, b->row, state, y))[x - from];
}

/* As `settle` in tables.c does one by one. */
static void settle(const Beside *b, const float *table, int32_t state, int32_t y, int32_t from) {
    const Grid *g = b->g;
    float *row = *row_of(g, b->row, state, y);
    if (y > 0) raise_to(row, *row_of(g, b->row, state, y - 1));
    for (int32_t d = 0; d < g->digits; d++)
        if (at_hand(g, state, d)) raise_to(row, *row_of(g, b->row, state - g->weight[d], y));
    float most = from > 0 ? table[place_of(g, state, from - 1, y)] : 0;
    for (int32_t i = 0; i < BESIDE; i++) {
        if (row[i] < most) row[i] = most;
        most = row[i];
    }
}

static inline void cut_row(const Beside *b, int32_t state, int32_t y, int32_t last, int32_t beside) {
    const Grid *g = b->g;
    float *to = *row_of(g, b->row, state, y);
    for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
        int32_t one = g->split[2 * s], other = g->split[2 * s + 1];
        int32_t least_one = holds_from(g, one, last), least_other = holds_from(g, other, last);
        for (int32_t p = g->y.first[y]; p < g->y.first[y + 1]; p++) {
            int32_t less = g->y.pair[2 * p], more = g->y.pair[2 * p + 1];
            if (less < least_one || more < least_other) continue;
            raise_row(to, *row_of(g, b->row, one, less), *row_of(g, b->row, other, more), beside);
        }
    }
}

void beside_cut_along(const Beside *b, float *table, int32_t from, int32_t end) {
    const Grid *g = b->g;
    fetch(b, table, from, end);
    for (int32_t y = 0; y < g->y.count; y++)
        for (int32_t state = 0; state < g->states; state++) {
            if (y >= holds_from(g, state, end - 1)) {
                if (end - from <= FEW)
                    cut_row(b, state, y, end - 1, FEW);
                else
                    cut_row(b, state, y, end - 1, BESIDE);
            }
            settle(b, table, state, y, from);
        }
    put_back(b, table, from, end);
}

static inline void grow_row(const Beside *b, int32_t state, int32_t y, int32_t own, int32_t beside) {
    const Grid *g = b->g;
    float *to = *row_of(g, b->row, state, y);
    for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
        int32_t one = g->split[2 * s], other = g->split[2 * s + 1], least = holds_from(g, one, own);
        if (y > 0 && y >= least)
            raise_row(to, *row_of(g, b->own, one, y), *row_of(g, b->row, other, 0), beside);
        for (int32_t p = g->y.first[y]; p < g->y.first[y + 1]; p++) {
            int32_t less = g->y.pair[2 * p], more = g->y.pair[2 * p + 1];
            if (less >= least)
                raise_row(to, *row_of(g, b->own, one, less), *row_of(g, b->row, other, more), beside);
            if (more >= least)
                raise_row(to, *row_of(g, b->own, one, more), *row_of(g, b->row, other, less), beside);
        }
    }
}

void beside_grow_along(const Beside *b, const float *table, float *rest, int32_t from, int32_t end) {
    const Grid *g = b->g;
    fetch(b, rest, from, end);
    for (int32_t state = 0; state < g->states; state++)
        for (int32_t y = 0; y < g->y.count; y++)
            for (int32_t i = 0; i < BESIDE; i++)
                (*row_of(g, b->own, state, y))[i] =
                    from + i < end ? table[place_of(g, state, g->x.across[from + i], y)] : 0;
    for (int32_t y = 0; y < g->y.count; y++)
        for (int32_t state = 0; state < g->states; state++) {
            if (end - from <= FEW)
                grow_row(b, state, y, g->x.across[from], FEW);
            else
                grow_row(b, state, y, g->x.across[from], BESIDE);
            settle(b, rest, state, y, from);
        }
    put_back(b, rest, from, end);
}
