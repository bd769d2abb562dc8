/* Pricing in which a few single items, the critical ones, are used once at most.
 *
 * A state-space relaxation between each item as often as one likes (pricing.c) and none more often than
 * asked for (assemble.c): N. Christofides, E. Hadjiconstantinou: An exact algorithm for orthogonal 2-D
 * cutting problems using guillotine cuts. European Journal of Operational Research 83 (1995).
 *
 * There is a table for each set of critical items, in the order of its bits: the most a rectangle is
 * worth when only they, each once, and all the others are at hand.
 */
#include "pricing.h"

#include <string.h>

typedef struct {
    int32_t length, width, sets;
    size_t row, cells;
} Grid;

static float *row_of(const Grid *g, float *table, int32_t set, int32_t x) {
    return table + (size_t)set * g->cells + (size_t)x * g->row;
}

static void raise_sums(float *restrict to, const float *restrict a, const float *restrict b, int32_t count) {
    for (int32_t i = 0; i < count; i++) {
        float sum = a[i] + b[i];
        to[i] = to[i] > sum ? to[i] : sum;
    }
}

static void raise_by(float *restrict to, float own, const float *restrict a, int32_t count) {
    for (int32_t i = 0; i < count; i++) {
        float sum = own + a[i];
        to[i] = to[i] > sum ? to[i] : sum;
    }
}

static void raise_to(float *restrict to, const float *restrict a, int32_t count) {
    for (int32_t i = 0; i < count; i++) to[i] = to[i] > a[i] ? to[i] : a[i];
}

/* At least what a set less one of its items is worth. */
static void raise_to_subsets(const Grid *g, float *table, int32_t set, int32_t x, int32_t from,
                             int32_t count) {
    for (int32_t bit = 1; bit < g->sets; bit *= 2)
        if (set & bit) raise_to(row_of(g, table, set, x) + from, row_of(g, table, set ^ bit, x) + from, count);
}

static void put_items(const Grid *g, int32_t count, const PricedItem *item, const int32_t *critical,
                      float *table) {
    for (int32_t i = 0; i < count; i++)
        for (int32_t turned = 0; turned <= item[i].may_turn; turned++) {
            int32_t x = turned ? item[i].width : item[i].length;
            int32_t y = turned ? item[i].length : item[i].width;
            if (x > g->length || y > g->width) continue;
            for (int32_t set = 0; set < g->sets; set++) {
                if (critical[i] >= 0 && !(set >> critical[i] & 1)) continue;
                float *cell = row_of(g, table, set, x) + y;
                if (*cell < item[i].worth) *cell = item[i].worth;
            }
        }
}

static void fill_row(const Grid *g, float *table, int32_t x) {
    int32_t all = g->width + 1;
    for (int32_t set = 0; set < g->sets; set++) {
        float *at = row_of(g, table, set, x);
        raise_to(at, row_of(g, table, set, x - 1), all);
        for (int32_t part = set;; part = (part - 1) & set) {
            for (int32_t cut = 1; cut <= x / 2; cut++)
                raise_sums(at, row_of(g, table, part, cut), row_of(g, table, set ^ part, x - cut), all);
            if (part == 0) break;
        }
        raise_to_subsets(g, table, set, x, 0, all);
    }
    for (int32_t y = 1; y <= g->width; y++) {
        int32_t most = y < g->width - y ? y : g->width - y;
        for (int32_t set = 0; set < g->sets; set++) {
            float *at = row_of(g, table, set, x);
            if (at[y] < at[y - 1]) at[y] = at[y - 1];
            raise_to_subsets(g, table, set, x, y, 1);
        }
        for (int32_t set = 0; set < g->sets; set++)
            for (int32_t part = set;; part = (part - 1) & set) {
                /* y + cut > y: what is read at cut <= y is final, and where cut == y it is read first */
                float own = row_of(g, table, part, x)[y];
                const float *other = row_of(g, table, set ^ part, x);
                raise_by(row_of(g, table, set, x) + y + 1, own, other + 1, most > 0 ? most - 1 : 0);
                if (most > 0) {
                    float *end = row_of(g, table, set, x) + y + most;
                    if (*end < own + other[most]) *end = own + other[most];
                }
                if (part == 0) break;
            }
    }
}

/* The most that can be added to a rectangle with a set of critical items still at hand. */
static void fill_rest_row(const Grid *g, float *table, float *rest, int32_t x) {
    int32_t all = g->width + 1;
    for (int32_t set = 0; set < g->sets; set++) {
        float *at = row_of(g, rest, set, x);
        for (int32_t part = set;; part = (part - 1) & set) {
            for (int32_t more = 1; x + more <= g->length; more++)
                raise_sums(at, row_of(g, table, part, more), row_of(g, rest, set ^ part, x + more), all);
            if (part == 0) break;
        }
    }
    for (int32_t y = g->width; y > 0; y--) { /* a rectangle y wide is final: let narrower ones grow to it */
        for (int32_t set = 0; set < g->sets; set++) raise_to_subsets(g, rest, set, x, y, 1);
        for (int32_t set = 0; set < g->sets; set++)
            for (int32_t part = set;; part = (part - 1) & set) {
                const float *beside = row_of(g, table, part, x);
                float own = row_of(g, rest, set ^ part, x)[y];
                float *at = row_of(g, rest, set, x);
                for (int32_t from = 0; from < y; from++) {
                    float sum = own + beside[y - from];
                    at[from] = at[from] > sum ? at[from] : sum;
                }
                if (part == 0) break;
            }
    }
    for (int32_t set = 0; set < g->sets; set++) raise_to_subsets(g, rest, set, x, 0, 1);
}

/* critical: for each item its bit, or -1.  table, rest: `sets` (a power of two) tables each, one after
 * another.  Returns the most that the whole bin is worth. */
KERNEL_API float price_bounded(int32_t length, int32_t width, int32_t count, const PricedItem *item,
                               const int32_t *critical, int32_t sets, float *table, float *rest) {
    Grid g = {.length = length, .width = width, .sets = sets, .row = (size_t)width + 1};
    g.cells = ((size_t)length + 1) * g.row;
    memset(table, 0, (size_t)sets * g.cells * sizeof *table);
    memset(rest, 0, (size_t)sets * g.cells * sizeof *rest);
    put_items(&g, count, item, critical, table);
    for (int32_t x = 1; x <= length; x++) fill_row(&g, table, x);
    for (int32_t x = length; x >= 0; x--) fill_rest_row(&g, table, rest, x);
    return row_of(&g, table, sets - 1, length)[width];
}
