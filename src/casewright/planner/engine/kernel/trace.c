/* Patterns from the tables: the most valuable of the bin, and the most valuable with each of other first
 * cuts.
 *
 * Thirty columns from one table in place of one: the LP then takes a third to a half as many steps to
 * converge.
 */
#include <string.h>

#include "pricing.h"

enum { MOST_FIRSTS = 64 };

typedef struct {
    const Grid *g;
    const float *table;
    int32_t *out;
    int32_t written, room;
} Trace;

typedef struct {
    float worth;
    int32_t one_state, one_x, one_y, other_state, other_x, other_y;
    int32_t axis;
} Cut;

static int put(Trace *t, int32_t first, int32_t second) {
    if (t->written + 3 > t->room) return 0;
    t->out[t->written++] = first;
    t->out[t->written++] = second;
    t->out[t->written++] = 0;
    return 1;
}

static float worth_of(const Trace *t, int32_t state, int32_t x, int32_t y) {
    return t->table[place_of(t->g, state, x, y)];
}

/* The smallest rectangle of the same worth. */
static void shrink(const Trace *t, int32_t *state, int32_t *x, int32_t *y) {
    float worth = worth_of(t, *state, *x, *y);
    while (*x > 0 && worth_of(t, *state, *x - 1, *y) == worth) --*x;
    while (*y > 0 && worth_of(t, *state, *x, *y - 1) == worth) --*y;
    for (int32_t d = 0; d < t->g->digits; d++)
        while (at_hand(t->g, *state, d) && worth_of(t, *state - t->g->weight[d], *x, *y) == worth)
            *state -= t->g->weight[d];
}

/* Tries the cuts of a rectangle in turn: `at` counts them; returns 0 when there are no more. */
static int next_cut(const Trace *t, int32_t state, int32_t x, int32_t y, int32_t *at, Cut *cut) {
    const Grid *g = t->g;
    int32_t on_x = g->x.first[x + 1] - g->x.first[x], on_y = g->y.first[y + 1] - g->y.first[y];
    int32_t pairs = on_x + on_y, splits = g->split_first[state + 1] - g->split_first[state];
    if (*at >= pairs * splits) return 0;
    int32_t s = g->split_first[state] + *at / pairs, p = *at % pairs;
    ++*at;
    cut->one_state = g->split[2 * s];
    cut->other_state = g->split[2 * s + 1];
    cut->one_x = cut->other_x = x;
    cut->one_y = cut->other_y = y;
    cut->axis = p < on_x ? 0 : 1;
    if (cut->axis == 0) {
        cut->one_x = g->x.pair[2 * (g->x.first[x] + p)];
        cut->other_x = g->x.pair[2 * (g->x.first[x] + p) + 1];
    } else {
        cut->one_y = g->y.pair[2 * (g->y.first[y] + p - on_x)];
        cut->other_y = g->y.pair[2 * (g->y.first[y] + p - on_x) + 1];
    }
    cut->worth = worth_of(t, cut->one_state, cut->one_x, cut->one_y) +
                 worth_of(t, cut->other_state, cut->other_x, cut->other_y);
    return 1;
}

static int trace(Trace *t, int32_t state, int32_t x, int32_t y) {
    shrink(t, &state, &x, &y);
    const Grid *g = t->g;
    float worth = worth_of(t, state, x, y);
    for (int32_t i = 0; i < g->seeds; i++) {
        const Seed *seed = &g->seed[i];
        if (g->worth[seed->kind] != worth || seed->x > x || seed->y > y) continue;
        int32_t digit = g->digit[seed->kind];
        if (digit < 0 || at_hand(g, state, digit)) return put(t, seed->kind, seed->turned);
    }
    Cut cut;
    for (int32_t at = 0; next_cut(t, state, x, y, &at, &cut);)
        if (cut.worth == worth)
            return put(t, -1 - cut.axis, 0) && trace(t, cut.one_state, cut.one_x, cut.one_y) &&
                   trace(t, cut.other_state, cut.other_x, cut.other_y);
    return 0;
}

static int known(const Cut *first, int32_t count, const Cut *cut) {
    for (int32_t f = 0; f < count; f++)
        if (memcmp(&first[f], cut, sizeof *cut) == 0) return 1;
    return 0;
}

/* The most valuable first cuts, most first. */
static int32_t first_cuts(const Trace *t, float ask, Cut *first, int32_t most) {
    const Grid *g = t->g;
    int32_t count = 0;
    Cut cut;
    for (int32_t at = 0; next_cut(t, g->states - 1, g->x.count - 1, g->y.count - 1, &at, &cut);) {
        if (cut.worth <= ask || (count == most && cut.worth <= first[count - 1].worth)) continue;
        if (cut.worth == worth_of(t, cut.one_state, cut.one_x, cut.one_y)) continue;
        if (cut.worth == worth_of(t, cut.other_state, cut.other_x, cut.other_y)) continue;
        shrink(t, &cut.one_state, &cut.one_x, &cut.one_y);
        shrink(t, &cut.other_state, &cut.other_x, &cut.other_y);
        if (known(first, count, &cut)) continue;
        int32_t f = count < most ? count++ : count - 1;
        for (; f > 0 && first[f - 1].worth < cut.worth; f--) first[f] = first[f - 1];
        first[f] = cut;
    }
    return count;
}

/* Writes up to `most` patterns worth more than `ask`, the most valuable first, in preorder as assemble.c
 * does.  Returns how many integers that took. */
KERNEL_API int32_t price_patterns(const Grid *g, const float *table, float ask, int32_t most, int32_t *out,
                                  int32_t room) {
    Trace t = {g, table, out, 0, room};
    Cut first[MOST_FIRSTS];
    int32_t x = g->x.count - 1, y = g->y.count - 1, state = g->states - 1;
    if (worth_of(&t, state, x, y) <= ask || most < 1 || !trace(&t, state, x, y)) return 0;
    int32_t written = t.written;
    int32_t cuts = first_cuts(&t, ask, first, most - 1 < MOST_FIRSTS ? most - 1 : MOST_FIRSTS);
    for (int32_t f = 0; f < cuts; f++) {
        const Cut *cut = &first[f];
        int whole = put(&t, -1 - cut->axis, 0) && trace(&t, cut->one_state, cut->one_x, cut->one_y) &&
                    trace(&t, cut->other_state, cut->other_x, cut->other_y);
        if (!whole) break;
        written = t.written;
    }
    return written;
}
