/* The sizes that matter along one side of a bin.
 *
 * Whatever lies in a rectangle can be pushed together until its extent is a sum of sides of the items in
 * it, a normal size (J. C. Herz, IBM Journal of Research and Development 16, 1972; N. Christofides, C.
 * Whitlock, Operations Research 25, 1977).  Both parts of a cut may then be enlarged to the largest normal
 * size that leaves the other its own.  Only pairs that cannot be enlarged are of use, and from the whole
 * side these pairs reach but few sizes, so that tables stay small without rounding (raster points: J.
 * Terno, R. Lindemann, G. Scheithauer, Zuschnittprobleme und ihre praktische Loesung, 1987).
 */
#include <stdlib.h>
#include <string.h>

#include "pricing.h"

/* Calls for each pair of `size`: `low` the largest normal size up to each length. */
static int32_t each_pair(const int32_t *low, int32_t size, const int32_t *index, uint8_t *reached,
                         int32_t *pair, int32_t at, int32_t room) {
    int32_t before = 0;
    for (int32_t cut = 1; 2 * cut <= size; cut++) {
        if (low[cut] != cut) continue;
        int32_t other = low[size - cut], one = low[size - other];
        if (one == before || other == 0) continue;
        before = one;
        if (reached) reached[one] = reached[other] = 1;
        if (!pair) continue;
        if (at + 2 > room) return -1;
        pair[at++] = index[one < other ? one : other];
        pair[at++] = index[one < other ? other : one];
    }
    return at;
}

/* normal[s]: whether s is a normal size, 0 <= s <= length; nought is.  Writes the sizes that matter to
 * `size`, their pairs (see pricing.h) to `first` and `pair`, and for each whole length how much is left
 * beside it to `left`, as an index.  Returns the number of sizes, 0 when the room does not suffice. */
KERNEL_API int32_t lay_line(int32_t length, const uint8_t *normal, int32_t *size, int32_t *first,
                            int32_t *pair, int32_t room, int32_t *across, int32_t *left) {
    size_t all = (size_t)length + 1;
    int32_t *low = malloc(all * sizeof *low), *index = malloc(all * sizeof *index);
    uint8_t *reached = calloc(all, 1);
    int32_t count = 0;
    if (low && index && reached) {
        for (int32_t s = 0; s <= length; s++) low[s] = s == 0 || normal[s] ? s : low[s - 1];
        reached[0] = 1;
        for (int32_t s = 0; s <= length; s++) reached[low[length - low[s]]] = 1;
        for (int32_t s = length; s > 0; s--)
            if (reached[s]) each_pair(low, s, NULL, reached, NULL, 0, 0);
        for (int32_t s = 0; s <= length; s++) {
            index[s] = count; /* of the smallest size that matters and is no smaller */
            if (reached[s]) size[count++] = s;
        }
        int32_t at = 0;
        for (int32_t i = 0; i < count && at >= 0; i++) {
            first[i] = at / 2;
            at = each_pair(low, size[i], index, NULL, pair, at, room);
            across[i] = index[low[length - size[i]]];
        }
        first[count] = at / 2;
        for (int32_t s = 0; s <= length; s++) left[s] = index[low[length - s]];
        if (at < 0) count = 0;
    }
    free(low);
    free(index);
    free(reached);
    return count;
}
