/* Pricing: the most valuable guillotine pattern of one bin, each item as often as one likes.
 *
 * P. C. Gilmore, R. E. Gomory: The theory and computation of knapsack functions. Operations Research
 * 14 (1966).
 *
 * value[x][y] is the best worth of a rectangle x by y.  Worths are whole numbers held in floats, which
 * are exact up to 2^24: the caller scales them so that no bin is worth more, and then the bound that
 * rests on the table has no rounding in it.  Rows are written so that compilers vectorise the loops.
 */
#include "pricing.h"

#include <string.h>

/* Seeds the table with single items. */
static void put_items(float *table, int32_t length, int32_t width, int32_t count,
                      const PricedItem *item) {
    size_t row = (size_t)width + 1;
    for (int32_t i = 0; i < count; i++)
        for (int32_t turned = 0; turned <= item[i].may_turn; turned++) {
            int32_t x = turned ? item[i].width : item[i].length;
            int32_t y = turned ? item[i].length : item[i].width;
            if (x > length || y > width) continue;
            float *cell = &table[(size_t)x * row + (size_t)y];
            if (*cell < item[i].worth) *cell = item[i].worth;
        }
}

/* table: (length + 1) * (width + 1) floats.  Returns the worth of the whole bin. */
KERNEL_API float price_bin(int32_t length, int32_t width, int32_t count, const PricedItem *item,
                           float *table) {
    size_t row = (size_t)width + 1;
    memset(table, 0, ((size_t)length + 1) * row * sizeof *table);
    put_items(table, length, width, count, item);
    for (int32_t x = 1; x <= length; x++) {
        float *at = table + (size_t)x * row;
        const float *before = at - row;
        for (int32_t y = 0; y <= width; y++) at[y] = at[y] > before[y] ? at[y] : before[y];
        for (int32_t cut = 1; cut <= x / 2; cut++) {
            const float *one = table + (size_t)cut * row, *other = table + (size_t)(x - cut) * row;
            for (int32_t y = 0; y <= width; y++) {
                float sum = one[y] + other[y];
                at[y] = at[y] > sum ? at[y] : sum;
            }
        }
        for (int32_t y = 1; y <= width; y++) {
            float own = at[y] > at[y - 1] ? at[y] : at[y - 1];
            at[y] = own;
            float *restrict up = at + y; /* up[cut] for cut <= y */
            int32_t most = y < width - y ? y : width - y;
            for (int32_t cut = 1; cut < most; cut++) {
                float sum = own + at[cut];
                up[cut] = up[cut] > sum ? up[cut] : sum;
            }
            if (most > 0) {
                float sum = own + at[most];
                up[most] = up[most] > sum ? up[most] : sum;
            }
        }
    }
    return table[(size_t)length * row + (size_t)width];
}

typedef struct {
    int32_t count;
    size_t row;
    const PricedItem *item;
    const float *table;
    int32_t *out;
    int32_t written, room;
} Trace;

static int put(Trace *t, int32_t first, int32_t second, int32_t third) {
    if (t->written + 3 > t->room) return 0;
    t->out[t->written++] = first;
    t->out[t->written++] = second;
    t->out[t->written++] = third;
    return 1;
}

static float worth_of(const Trace *t, int32_t length, int32_t width) {
    return t->table[(size_t)length * t->row + (size_t)width];
}

static int put_single(Trace *t, int32_t length, int32_t width, float worth) {
    for (int32_t i = 0; i < t->count; i++) {
        const PricedItem *item = &t->item[i];
        if (item->worth != worth) continue;
        if (item->length == length && item->width == width) return put(t, i, 0, 0);
        if (item->may_turn && item->width == length && item->length == width) return put(t, i, 1, 0);
    }
    return 0;
}

static void trace(Trace *t, int32_t length, int32_t width) {
    float worth = worth_of(t, length, width);
    while (length > 1 && worth_of(t, length - 1, width) == worth) length--;
    while (width > 1 && worth_of(t, length, width - 1) == worth) width--;
    if (put_single(t, length, width, worth)) return;
    for (int32_t cut = 1; cut <= length / 2; cut++)
        if (worth_of(t, cut, width) + worth_of(t, length - cut, width) == worth) {
            put(t, -1, length, width);
            trace(t, cut, width);
            trace(t, length - cut, width);
            return;
        }
    for (int32_t cut = 1; cut <= width / 2; cut++)
        if (worth_of(t, length, cut) + worth_of(t, length, width - cut) == worth) {
            put(t, -2, length, width);
            trace(t, length, cut);
            trace(t, length, width - cut);
            return;
        }
}

/* Writes a pattern that is worth table[length][width], in preorder as assemble.c does; returns the
 * number of integers written, 0 when the room does not suffice or nothing has worth. */
KERNEL_API int32_t price_trace(int32_t length, int32_t width, int32_t count, const PricedItem *item,
                               const float *table, int32_t *out, int32_t room) {
    Trace t = {count, (size_t)width + 1, item, table, out, 0, room};
    if (worth_of(&t, length, width) <= 0) return 0;
    trace(&t, length, width);
    return t.written < room ? t.written : 0;
}

/* rest[x][y]: the most that can be added to a rectangle x by y as it is built up to the whole bin, each
 * item as often as one likes.  K. V. Viswanathan, A. Bagchi: Best-first search methods for constrained
 * two-dimensional cutting stock problems. Operations Research 41 (1993). */
KERNEL_API void price_completions(int32_t length, int32_t width, const float *table, float *rest) {
    size_t row = (size_t)width + 1;
    memset(rest, 0, ((size_t)length + 1) * row * sizeof *rest);
    for (int32_t x = length; x >= 0; x--) {
        float *at = rest + (size_t)x * row;
        for (int32_t added = 1; x + added <= length; added++) {
            const float *beside = table + (size_t)added * row, *grown = rest + (size_t)(x + added) * row;
            for (int32_t y = 0; y <= width; y++) {
                float sum = beside[y] + grown[y];
                at[y] = at[y] > sum ? at[y] : sum;
            }
        }
        const float *above = table + (size_t)x * row;
        for (int32_t y = width - 1; y >= 0; y--) {
            float best = at[y];
            for (int32_t added = 1; y + added <= width; added++) {
                float sum = above[added] + at[y + added];
                best = best > sum ? best : sum;
            }
            at[y] = best;
        }
    }
}
