/* The pool: well-filled layouts that the search came by, each set of items once.
 *
 * Good layouts are spread over plans that each failed elsewhere.  Put together they can make a better
 * plan, which recall and the LP over the pool look for (M. Monaci, P. Toth: A set-covering-based heuristic
 * approach for bin-packing problems. INFORMS Journal on Computing 18, 2006).
 */
#include <stdlib.h>
#include <string.h>

#include "search.h"

enum { PLACES = 1 << 17, MOST_CODE = 6000000 }; /* fewer layouts than half of the places */

/* A hash of one item.  A layout's key is the sum over its items, the same in whatever order they lie. */
static uint64_t mixed(int32_t item) {
    uint64_t z = ((uint64_t)item + 1) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 29)) * 0x94d049bb133111ebu;
    return z ^ (z >> 32);
}

/* Keeps what was put at the end of the code, from `start` on, as a layout of its own, unless it is not
 * whole or its items are in the pool. */
static void keep(Pool *pool, int32_t start, int whole) {
    if (!whole) {
        pool->code.length = start;
        return;
    }
    const int32_t *number = pool->code.number;
    Remembered layout = {(uint64_t)number[start] * 0x9e3779b97f4a7c15u, 0, number[start], start};
    for (int32_t c = start + HEAD; c < pool->code.length; c += TO_A_NODE) {
        if (number[c] == STRIP) continue;
        layout.key += mixed(number[c]);
        layout.mask |= item_bit(number[c]);
    }
    uint32_t at = (uint32_t)(layout.key >> 40) % PLACES;
    for (; pool->place[at] >= 0; at = (at + 1) % PLACES)
        if (pool->layout[pool->place[at]].key == layout.key) {
            pool->code.length = start;
            return;
        }
    pool->layout[pool->count] = layout;
    pool->place[at] = pool->count++;
}

static int is_full(const Pool *pool) { return pool->count == pool->most || pool->code.length > MOST_CODE; }

/* The open layouts that changed after the iteration `since`, as far as they are filled well enough and
 * there is room. */
void pool_remember(Search *search, int32_t since) {
    Pool *pool = &search->pool;
    for (int32_t s = 0; s < search->slots; s++) {
        const Layout *layout = &search->layout[s];
        if (layout->bin == NONE || layout->saved_in <= since) continue;
        if (is_full(pool)) return;
        if ((double)layout->filled < pool->least_fill * (double)search->bin[layout->bin].price) continue;
        int32_t start = pool->code.length;
        keep(pool, start, encode_layout(&pool->code, layout));
    }
}

void pool_free(Pool *pool) {
    free(pool->layout);
    free(pool->place);
    free(pool->code.number);
}

static int make_room(Pool *pool, int32_t most) {
    pool->most = most < PLACES / 2 ? most : PLACES / 2;
    pool->layout = malloc((size_t)pool->most * sizeof *pool->layout);
    pool->place = malloc(PLACES * sizeof *pool->place);
    if (!pool->layout || !pool->place) return 0;
    memset(pool->place, 0xff, PLACES * sizeof *pool->place);
    return 1;
}

/* From now on layouts with at least so much area for a unit of price are remembered; `most` in all, which
 * the first call settles. */
KERNEL_API int32_t search_remember(Search *search, double least_fill, int32_t most) {
    search->pool.least_fill = least_fill;
    if (!search->pool.place && !make_room(&search->pool, most)) return 0;
    pool_remember(search, NONE);
    return 1;
}

/* Remembers a layout found elsewhere, given as code, as long as there is room. */
KERNEL_API void search_learn(Search *search, const int32_t *number, int32_t length) {
    Pool *pool = &search->pool;
    int32_t start = pool->code.length;
    if (is_full(pool)) return;
    keep(pool, start, code_append(&pool->code, number, length));
}

KERNEL_API int32_t search_remembered(const Search *search) { return search->pool.count; }

/* Of the layouts from `first` on: bins, and the items of each by kind (a row of `kinds` for each). */
KERNEL_API void search_remembered_counts(const Search *search, int32_t first, const int32_t *kind_of,
                                         int32_t kinds, int32_t *bin, int16_t *counts) {
    const Pool *pool = &search->pool;
    for (int32_t p = first; p < pool->count; p++) {
        *bin++ = pool->layout[p].bin;
        for (int32_t c = pool->layout[p].start + HEAD; c < end_of(pool, p); c += TO_A_NODE)
            if (pool->code.number[c] >= 0) counts[kind_of[pool->code.number[c]]]++;
        counts += kinds;
    }
}

/* The code of one of them, and its length. */
KERNEL_API const int32_t *search_remembered_code(const Search *search, int32_t place, int32_t *length) {
    const Pool *pool = &search->pool;
    *length = end_of(pool, place) - pool->layout[place].start;
    return pool->code.number + pool->layout[place].start;
}
