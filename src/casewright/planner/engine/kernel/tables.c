/* Pricing tables: the most valuable guillotine pattern of every rectangle, and the most that can be added
 * to it.
 *
 * P. C. Gilmore, R. E. Gomory: The theory and computation of knapsack functions. Operations Research 14
 * (1966).  Each item may be used any number of times, but for the critical ones, which are counted.  That
 * is a state-space relaxation of the exact rule, none more often than asked for (assemble.c): N.
 * Christofides, E. Hadjiconstantinou: An exact algorithm for orthogonal 2-D cutting problems using
 * guillotine cuts. European Journal of Operational Research 83 (1995).  A state is worked out only for
 * rectangles that can hold its critical items: in any other it is worth what some smaller state is.
 *
 * Worths are whole numbers held in floats, which are exact up to 2^24: the caller scales them so that no
 * bin is worth more, and then the bound that rests on the table has no rounding in it.  Eight values at a
 * time are worked on, some beyond the end of a row, where there is room for them; plain loops, which
 * compilers turn into vector instructions.
 */
#include <stdlib.h>
#include <string.h>

#include "beside.h"
#include "pricing.h"

static inline void raise_eight(float *to, const float *a, const float *b) {
    float sum[EIGHT];
    for (int32_t i = 0; i < EIGHT; i++) sum[i] = a[i] + b[i];
    for (int32_t i = 0; i < EIGHT; i++) to[i] = to[i] > sum[i] ? to[i] : sum[i];
}

static void raise_sums(float *to, const float *a, const float *b, int32_t count) {
    for (int32_t i = 0; i < count; i += EIGHT) raise_eight(to + i, a + i, b + i);
}

static void raise_by(float *to, const float *from, float more, int32_t count) {
    float all[EIGHT];
    for (int32_t i = 0; i < EIGHT; i++) all[i] = more;
    for (int32_t i = 0; i < count; i += EIGHT) raise_eight(to + i, from + i, all);
}

static int32_t larger(int32_t a, int32_t b) { return a > b ? a : b; }

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

/* A rectangle is worth no less than a narrower one, a shorter one, or with fewer items at hand. */
static void settle(const Grid *g, float *table, int32_t state, int32_t x, int32_t y) {
    float *cell = &table[place_of(g, state, x, y)], most = *cell;
    if (y > 0 && cell[-1] > most) most = cell[-1];
    if (x > 0 && cell[-g->stride] > most) most = cell[-g->stride];
    for (int32_t d = 0; d < g->digits; d++) {
        if (!at_hand(g, state, d)) continue;
        float fewer = table[place_of(g, state - g->weight[d], x, y)];
        if (fewer > most) most = fewer;
    }
    *cell = most;
}

/* Cuts across the length x. */
static void cut_across(const Grid *g, float *table, int32_t x) {
    for (int32_t state = 0; state < g->states; state++)
        for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
            int32_t one = g->split[2 * s], other = g->split[2 * s + 1];
            for (int32_t p = g->x.first[x]; p < g->x.first[x + 1]; p++) {
                int32_t less = g->x.pair[2 * p], more = g->x.pair[2 * p + 1];
                int32_t y = larger(holds_from(g, one, less), holds_from(g, other, more));
                raise_sums(&table[place_of(g, state, x, y)], &table[place_of(g, one, less, y)],
                           &table[place_of(g, other, more, y)], g->y.count - y);
            }
        }
}

/* Cuts along, where every width matters: what a width is worth, once it is settled, goes into all that it
 * is the larger part of. */
static void cut_along(const Grid *g, float *table, int32_t x) {
    for (int32_t y = 0; y < g->y.count; y++) {
        for (int32_t state = 0; state < g->states; state++) settle(g, table, state, x, y);
        int32_t end = g->y.count - y < y + 1 ? g->y.count - y : y + 1;
        for (int32_t state = 0; state < g->states; state++)
            for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
                int32_t one = g->split[2 * s], other = g->split[2 * s + 1];
                if (y < holds_from(g, one, x)) continue;
                int32_t from = larger(1, holds_from(g, other, x));
                raise_by(&table[place_of(g, state, x, y + from)], &table[place_of(g, other, x, from)],
                         table[place_of(g, one, x, y)], end - from);
            }
    }
}

/* table: a float for each state, length and width, in this order.  Returns the worth of the whole bin with
 * all critical items at hand, -1 when there is no memory. */
KERNEL_API float price_tables(const Grid *g, float *table) {
    memset(table, 0, place_of(g, g->states, 0, 0) * sizeof *table);
    put_seeds(g, table);
    if (g->y.even) {
        for (int32_t x = 0; x < g->x.count; x++) {
            cut_across(g, table, x);
            cut_along(g, table, x);
        }
    } else {
        Beside beside;
        if (!beside_new(&beside, g)) return -1;
        for (int32_t x = 0, end; x < g->x.count; x = end) {
            end = beside_end(g, x);
            for (int32_t at = x; at < end; at++) cut_across(g, table, at);
            beside_cut_along(&beside, table, x, end);
        }
        beside_free(&beside);
    }
    return table[place_of(g, g->states - 1, g->x.count - 1, g->y.count - 1)];
}

/* What is needed to fill the table of rests. */
typedef struct {
    const Grid *g;
    const float *table;
    float *aside;       /* the table by what is left beside the width */
    int32_t *tall;      /* how many of the widths left over leave a strip as wide as y beside them, or wider */
    int32_t *left_from; /* by state and length left over: the least width left over that all its critical
                           items, each by itself, find a place beside */
    Beside beside;
} Rests;

static int32_t left_from(const Rests *r, int32_t state, int32_t x) {
    return r->left_from[(size_t)state * (size_t)r->g->x.count + (size_t)x];
}

/* The strip beside a rectangle that leaves `x` of the length, and parts of it. */
static void grow_across(const Rests *r, float *rest, int32_t x) {
    const Grid *g = r->g;
    for (int32_t state = 0; state < g->states; state++)
        for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
            int32_t one = g->split[2 * s], other = g->split[2 * s + 1];
            for (int32_t p = g->x.first[x] - 1; p < g->x.first[x + 1]; p++) {
                int whole = p < g->x.first[x]; /* and nothing more beside it */
                int32_t less = whole ? 0 : g->x.pair[2 * p], more = whole ? x : g->x.pair[2 * p + 1];
                for (int turn = 0; turn < 2 - whole; turn++) {
                    int32_t strip = turn ? less : more, beside = turn ? more : less;
                    int32_t y = left_from(r, other, beside);
                    raise_sums(&rest[place_of(g, state, x, y)], &r->aside[place_of(g, one, strip, y)],
                               &rest[place_of(g, other, beside, y)], r->tall[holds_from(g, one, strip)] - y);
                }
            }
        }
}

/* The strip on top of it, where every width matters. */
static void grow_along(const Rests *r, float *rest, int32_t x) {
    const Grid *g = r->g;
    int32_t own = g->x.across[x];
    for (int32_t y = 0; y < g->y.count; y++) {
        for (int32_t state = 0; state < g->states; state++) settle(g, rest, state, x, y);
        for (int32_t state = 0; state < g->states; state++)
            for (int32_t s = g->split_first[state]; s < g->split_first[state + 1]; s++) {
                int32_t one = g->split[2 * s], other = g->split[2 * s + 1];
                if (y < left_from(r, other, x)) continue;
                int32_t from = larger(1, holds_from(g, one, own));
                raise_by(&rest[place_of(g, state, x, y + from)], &r->table[place_of(g, one, own, from)],
                         rest[place_of(g, other, x, y)], g->y.count - y - from);
            }
    }
}

static void lay_aside(Rests *r) {
    const Grid *g = r->g;
    memset(r->aside, 0, place_of(g, g->states, 0, 0) * sizeof *r->aside);
    for (int32_t state = 0; state < g->states; state++)
        for (int32_t x = 0; x < g->x.count; x++) {
            for (int32_t y = 0; y < g->y.count; y++)
                r->aside[place_of(g, state, x, y)] = r->table[place_of(g, state, x, g->y.across[y])];
            int32_t *from = &r->left_from[(size_t)state * (size_t)g->x.count + (size_t)x];
            *from = 0;
            for (int32_t d = 0; d < g->digits; d++)
                if (at_hand(g, state, d) && holds_from(g, g->weight[d], x) >= g->y.count)
                    *from = larger(*from, holds_from(g, g->weight[d], g->x.count - 1));
        }
    int32_t count = g->y.count;
    for (int32_t y = 0; y <= g->y.count; y++) {
        while (count > 0 && g->y.across[count - 1] < y) count--;
        r->tall[y] = count;
    }
}

/* rest: by state and by what is left of the bin's length and width beside a rectangle, the most that can
 * be added as it is built up to the whole bin.  K. V. Viswanathan, A. Bagchi: Best-first search methods for
 * constrained two-dimensional cutting stock problems. Operations Research 41 (1993).  Returns 0 when there
 * is no memory. */
KERNEL_API int32_t price_rests(const Grid *g, const float *table, float *rest) {
    size_t all = place_of(g, g->states, 0, 0);
    Rests r = {.g = g, .table = table};
    r.aside = malloc(all * sizeof *r.aside);
    r.tall = malloc(((size_t)g->y.count + 1) * sizeof *r.tall);
    r.left_from = malloc((size_t)g->states * (size_t)g->x.count * sizeof *r.left_from);
    int32_t done = r.aside && r.tall && r.left_from && (g->y.even || beside_new(&r.beside, g));
    if (done) {
        memset(rest, 0, all * sizeof *rest);
        lay_aside(&r);
        for (int32_t x = 0, end; x < g->x.count; x = end) {
            end = g->y.even || x == 0 ? x + 1 : beside_end(g, x);
            for (int32_t at = x; at < end; at++) grow_across(&r, rest, at);
            if (g->y.even)
                grow_along(&r, rest, x);
            else
                beside_grow_along(&r.beside, table, rest, x, end);
        }
    }
    free(r.aside);
    free(r.tall);
    free(r.left_from);
    beside_free(&r.beside);
    return done;
}
