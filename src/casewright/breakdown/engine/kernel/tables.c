/* Pricing tables: the most valuable guillotine pattern of every rectangle, and the most that can be added
 * to it.
 *
 * P. C. Gilmore, R. E. Gomory: The theory and computation of knapsack functions. Operations Research
 * 14 (1966).  Each item as often as one likes, but for the critical ones, which are counted: a state-space
 * relaxation of none more often than asked for (assemble.c). N. Christofides, E. Hadjiconstantinou: An
 * exact algorithm for orthogonal 2-D cutting problems using guillotine cuts. European Journal of
 * Operational Research 83 (1995).
 *
 * Worths are whole numbers held in floats, which are exact up to 2^24: the caller scales them so that no
 * bin is worth more, and then the bound that rests on the table has no rounding in it.  Sizes along the
 * length that no cut leads from one to the other are filled side by side, in rows of BESIDE, so that
 * compilers vectorise the loops.
 */
#include <stdlib.h>
#include <string.h>

#include "pricing.h"

enum { BESIDE = 16, FEW = 4 };

typedef float Row[BESIDE];

/* The tables of some sizes along the length, turned so that they lie beside each other. */
typedef struct {
    const Grid *g;
    Row *row; /* by state and width */
    int32_t beside; /* how many of each row are in use: rounded up to FEW or BESIDE */
} Block;

static Row *row_of(const Block *b, int32_t state, int32_t y) {
    return &b->row[(size_t)state * (size_t)b->g->y.count + (size_t)y];
}

static void raise_sums(float *restrict to, const float *restrict a, const float *restrict b, int32_t count) {
    for (int32_t i = 0; i < count; i++) {
        float sum = a[i] + b[i];
        to[i] = to[i] > sum ? to[i] : sum;
    }
}

static inline void raise_part(float *restrict to, const float *restrict a, const float *restrict b,
                              int32_t count) {
    for (int32_t i = 0; i < count; i++) {
        float sum = a[i] + b[i];
        to[i] = to[i] > sum ? to[i] : sum;
    }
}

static inline void raise_row(const Block *block, Row *to, const Row *a, const Row *b) {
    if (block->beside == FEW)
        raise_part(*to, *a, *b, FEW);
    else
        raise_part(*to, *a, *b, BESIDE);
}

static void raise_to(Row *restrict to, const Row *restrict a) {
    for (int32_t i = 0; i < BESIDE; i++) (*to)[i] = (*to)[i] > (*a)[i] ? (*to)[i] : (*a)[i];
}

/* Up to which size no pair reaches `from` or beyond. */
static int32_t end_of_block(const Line *x, int32_t from) {
    int32_t end = from + 1;
    for (; end < x->count && end - from < BESIDE; end++)
        for (int32_t p = x->first[end]; p < x->first[end + 1]; p++)
            if (x->pair[2 * p + 1] >= from) return end;
    return end;
}

static void put_seeds(const Grid *g, float *table) {
    for (int32_t i = 0; i < g->seeds; i++) {
        const Seed *seed = &g->seed[i];
        int32_t digit = g->digit[seed->kind];
        float worth = g->worth[seed->kind];
        for (int32_t state = 0; state < g->states; state++) {
            if (digit >= 0 && !at_hand(g, state, digit)) continue;
            float *cell = &table[place_of(g, state, seed->x, seed->y)];
            if (*cell < worth) *cell = worth;
        }
    }
}

static void fetch(const Block *b, const float *table, int32_t from, int32_t end) {
    for (int32_t state = 0; state < b->g->states; state++)
        for (int32_t y = 0; y < b->g->y.count; y++) {
            Row *row = row_of(b, state, y);
            for (int32_t x = from; x < end; x++) (*row)[x - from] = table[place_of(b->g, state, x, y)];
            for (int32_t i = end - from; i < BESIDE; i++) (*row)[i] = 0;
        }
}

static void put_back(const Block *b, float *table, int32_t from, int32_t end) {
    for (int32_t state = 0; state < b->g->states; state++)
        for (int32_t y = 0; y < b->g->y.count; y++)
            for (int32_t x = from; x < end; x++)
                table[place_of(b->g, state, x, y)] = (*row_of(b, state, y))[x - from];
}

/* A rectangle is worth no less than a narrower one, a shorter one, or with fewer items at hand. */
static void settle(const Block *b, const float *table, int32_t state, int32_t y, int32_t from) {
    const Grid *g = b->g;
    Row *row = row_of(b, state, y);
    if (y > 0) raise_to(row, row_of(b, state, y - 1));
    for (int32_t d = 0; d < g->digits; d++)
        if (at_hand(g, state, d)) raise_to(row, row_of(b, state - g->weight[d], y));
    float most = from > 0 ? table[place_of(g, state, from - 1, y)] : 0;
    for (int32_t i = 0; i < BESIDE; i++) {
        if ((*row)[i] < most) (*row)[i] = most;
        most = (*row)[i];
    }
}

/* Cuts across the length of the sizes from `from` to `end`. */
static void cut_across(const Grid *g, float *table, int32_t from, int32_t end) {
    for (int32_t x = from; x < end; x++)
        for (int32_t state = 0; state < g->states; state++) {
            float *to = &table[place_of(g, state, x, 0)];
            for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++)
                for (int32_t p = g->x.first[x]; p < g->x.first[x + 1]; p++)
                    raise_sums(to, &table[place_of(g, g->split[2 * s], g->x.pair[2 * p], 0)],
                               &table[place_of(g, g->split[2 * s + 1], g->x.pair[2 * p + 1], 0)], g->y.count);
        }
}

static void cut_along(const Block *b, const float *table, int32_t from) {
    const Grid *g = b->g;
    for (int32_t y = 0; y < g->y.count; y++)
        for (int32_t state = 0; state < g->states; state++) {
            Row *row = row_of(b, state, y);
            for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++)
                for (int32_t p = g->y.first[y]; p < g->y.first[y + 1]; p++)
                    raise_row(b, row, row_of(b, g->split[2 * s], g->y.pair[2 * p]),
                              row_of(b, g->split[2 * s + 1], g->y.pair[2 * p + 1]));
            settle(b, table, state, y, from);
        }
}

/* table: a float for each state, length and width, in this order.  Returns the worth of the whole bin with
 * all critical items at hand, -1 when there is no memory. */
KERNEL_API float price_tables(const Grid *g, float *table) {
    memset(table, 0, place_of(g, g->states, 0, 0) * sizeof *table);
    put_seeds(g, table);
    Block b = {g, malloc((size_t)g->states * (size_t)g->y.count * sizeof(Row)), BESIDE};
    if (!b.row) return -1;
    for (int32_t from = 0, end; from < g->x.count; from = end) {
        end = end_of_block(&g->x, from);
        b.beside = end - from <= FEW ? FEW : BESIDE;
        cut_across(g, table, from, end);
        fetch(&b, table, from, end);
        cut_along(&b, table, from);
        put_back(&b, table, from, end);
    }
    free(b.row);
    return table[place_of(g, g->states, 0, 0) - 1];
}

/* What the strip beside a rectangle adds that leaves `x` of the length. */
static void grow_across(const Grid *g, const float *aside, float *rest, int32_t from, int32_t end) {
    for (int32_t x = from; x < end; x++)
        for (int32_t state = 0; state < g->states; state++) {
            float *to = &rest[place_of(g, state, x, 0)];
            for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
                int32_t one = g->split[2 * s], other = g->split[2 * s + 1];
                const float *whole = &aside[place_of(g, one, x, 0)]; /* and nothing more beside it */
                raise_sums(to, whole, &rest[place_of(g, other, 0, 0)], g->y.count);
                for (int32_t p = g->x.first[x]; p < g->x.first[x + 1]; p++) {
                    int32_t less = g->x.pair[2 * p], more = g->x.pair[2 * p + 1];
                    raise_sums(to, &aside[place_of(g, one, less, 0)], &rest[place_of(g, other, more, 0)],
                               g->y.count);
                    raise_sums(to, &aside[place_of(g, one, more, 0)], &rest[place_of(g, other, less, 0)],
                               g->y.count);
                }
            }
        }
}

/* own: the table's rows of the rectangles themselves. */
static void grow_along(const Block *b, const Block *own, const float *rest, int32_t from) {
    const Grid *g = b->g;
    for (int32_t y = 0; y < g->y.count; y++)
        for (int32_t state = 0; state < g->states; state++) {
            Row *row = row_of(b, state, y);
            for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
                int32_t one = g->split[2 * s], other = g->split[2 * s + 1];
                if (y > 0) raise_row(b, row, row_of(own, one, y), row_of(b, other, 0));
                for (int32_t p = g->y.first[y]; p < g->y.first[y + 1]; p++) {
                    int32_t less = g->y.pair[2 * p], more = g->y.pair[2 * p + 1];
                    raise_row(b, row, row_of(own, one, less), row_of(b, other, more));
                    raise_row(b, row, row_of(own, one, more), row_of(b, other, less));
                }
            }
            settle(b, rest, state, y, from);
        }
}

/* rest: by state and by what is left of the bin's length and width beside a rectangle, the most that can
 * be added as it is built up to the whole bin.  K. V. Viswanathan, A. Bagchi: Best-first search methods for
 * constrained two-dimensional cutting stock problems. Operations Research 41 (1993).  Returns 0 when there
 * is no memory. */
KERNEL_API int32_t price_rests(const Grid *g, const float *table, float *rest) {
    size_t all = place_of(g, g->states, 0, 0), rows = (size_t)g->states * (size_t)g->y.count;
    float *aside = malloc(all * sizeof *aside); /* the table by what is left beside the width */
    Block b = {g, malloc(rows * sizeof(Row)), BESIDE}, own = {g, malloc(rows * sizeof(Row)), BESIDE};
    int32_t done = aside && b.row && own.row;
    if (done) {
        memset(rest, 0, all * sizeof *rest);
        for (int32_t state = 0; state < g->states; state++)
            for (int32_t x = 0; x < g->x.count; x++)
                for (int32_t y = 0; y < g->y.count; y++)
                    aside[place_of(g, state, x, y)] = table[place_of(g, state, x, g->y.across[y])];
        for (int32_t from = 0, end; from < g->x.count; from = end) {
            end = from == 0 ? 1 : end_of_block(&g->x, from);
            b.beside = end - from <= FEW ? FEW : BESIDE;
            grow_across(g, aside, rest, from, end);
            fetch(&b, rest, from, end);
            for (int32_t state = 0; state < g->states; state++)
                for (int32_t y = 0; y < g->y.count; y++)
                    for (int32_t i = 0; i < BESIDE; i++)
                        (*row_of(&own, state, y))[i] =
                            from + i < end ? table[place_of(g, state, g->x.across[from + i], y)] : 0;
            grow_along(&b, &own, rest, from);
            put_back(&b, rest, from, end);
        }
    }
    free(aside);
    free(b.row);
    free(own.row);
    return done;
}
