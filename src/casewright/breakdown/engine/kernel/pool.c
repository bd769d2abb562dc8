/* The pool: well-filled layouts that the search came by, each set of items once.
 *
 * Whole plans that the search leaves behind hold layouts that together make a better plan; a set cover
 * over them finds it (M. Monaci, P. Toth: A set-covering-based heuristic approach for bin-packing
 * problems. INFORMS Journal on Computing 18, 2006).
 */
#include <stdlib.h>
#include <string.h>

#include "search.h"

enum { PLACES = 1 << 17, MOST_CODE = 6000000 }; /* fewer layouts than half of the places */

/* The same for every order of the items: a sum of mixed numbers. */
static uint64_t key_of(const Layout *layout) {
    uint64_t key = (uint64_t)layout->bin * 0x9e3779b97f4a7c15u;
    for (int32_t n = 0; n < layout->top; n++) {
        if (layout->node[n].item < 0) continue;
        uint64_t z = ((uint64_t)layout->node[n].item + 1) * 0xbf58476d1ce4e5b9u;
        z = (z ^ (z >> 29)) * 0x94d049bb133111ebu;
        key += z ^ (z >> 32);
    }
    return key ? key : 1;
}

static void remember_layout(Pool *pool, const Layout *layout) {
    uint64_t key = key_of(layout);
    uint32_t at = (uint32_t)(key >> 40) % PLACES;
    for (; pool->place[at] >= 0; at = (at + 1) % PLACES)
        if (pool->layout[pool->place[at]].key == key) return;
    int32_t start = pool->code.length;
    if (!encode_layout(&pool->code, layout)) {
        pool->code.length = start;
        return;
    }
    pool->layout[pool->count] = (Remembered){key, layout->bin, start};
    pool->place[at] = pool->count++;
}

/* The open layouts, as far as they are filled well enough and there is room. */
void pool_remember(Search *search) {
    Pool *pool = &search->pool;
    for (int32_t s = 0; s < search->slots; s++) {
        const Layout *layout = &search->layout[s];
        if (layout->bin == NONE || pool->count == pool->most || pool->code.length > MOST_CODE) continue;
        if ((double)layout->filled < pool->least_fill * (double)search->bin[layout->bin].price) continue;
        remember_layout(pool, layout);
    }
}

void pool_free(Pool *pool) {
    free(pool->layout);
    free(pool->place);
    free(pool->code.number);
}

/* From now on layouts with at least so much area for a unit of price are remembered; `most` in all, which
 * the first call settles. */
KERNEL_API int32_t search_remember(Search *search, double least_fill, int32_t most) {
    Pool *pool = &search->pool;
    pool->least_fill = least_fill;
    if (pool->place) return 1;
    pool->most = most < PLACES / 2 ? most : PLACES / 2;
    pool->layout = malloc((size_t)pool->most * sizeof *pool->layout);
    pool->place = malloc(PLACES * sizeof *pool->place);
    if (!pool->layout || !pool->place) return 0;
    memset(pool->place, 0xff, PLACES * sizeof *pool->place);
    return 1;
}

KERNEL_API int32_t search_remembered(const Search *search) { return search->pool.count; }

/* Of the layouts from `first` on: bins, and the items of each by kind (a row of `kinds` for each). */
KERNEL_API void search_remembered_counts(const Search *search, int32_t first, const int32_t *kind_of,
                                         int32_t kinds, int32_t *bin, int16_t *counts) {
    const Pool *pool = &search->pool;
    for (int32_t p = first; p < pool->count; p++) {
        int32_t end = p + 1 < pool->count ? pool->layout[p + 1].start : pool->code.length;
        *bin++ = pool->layout[p].bin;
        for (int32_t c = pool->layout[p].start + 3; c < end; c += 4)
            if (pool->code.number[c] >= 0) counts[kind_of[pool->code.number[c]]]++;
        counts += kinds;
    }
}

/* The code of one of them, and its length. */
KERNEL_API const int32_t *search_remembered_code(const Search *search, int32_t place, int32_t *length) {
    const Pool *pool = &search->pool;
    int32_t end = place + 1 < pool->count ? pool->layout[place + 1].start : pool->code.length;
    *length = end - pool->layout[place].start;
    return pool->code.number + pool->layout[place].start;
}
