/* Exact pricing: patterns in which no item is used more often than it is asked for.
 *
 * Rectangles are assembled bottom-up by number of items, two side by side or one on the other (P. Y. Wang,
 * Operations Research 31, 1983).  There are far too many of them; two rules keep few.  A rectangle goes if
 * even the most that could be added beside it, by the tables (tables.c), would not lift it above the worth
 * asked for (K. V. Viswanathan, A. Bagchi, Operations Research 41, 1993: the tables are the upper bound of
 * their best-first search).  And it goes if the same items already lie in a rectangle that is no larger.
 */
#include <stdlib.h>
#include <string.h>

#include "pricing.h"

enum { WORDS = 6, MOST_LEVELS = 64, MOST_ITEMS = 384, CHOICE = 16, NOBODY = -1 };

typedef struct {
    uint64_t use[WORDS]; /* how often each item is used, in bit fields */
    int32_t x, y;
    int32_t one, other; /* what it is assembled of; a single item: its number and whether turned */
    int32_t axis;       /* of the row: 0 length, 1 width; NOBODY for a single item */
    int32_t chain;      /* next rectangle in the same place of the hash table */
    float worth;
    int32_t dead; /* replaced by a smaller rectangle of the same items */
    int32_t state; /* the number of the critical items used */
} Built;

/* What is looked at of a rectangle before all of it. */
typedef struct {
    float worth;
    int32_t number;
    int32_t x, y;
} Ranked;

typedef struct {
    int32_t length, width, scale_x, scale_y;
    const Grid *grid;
    const float *rest; /* what can be added, by state and by what is left beside a rectangle */
    const int32_t *left_x, *left_y;
    int32_t items;
    const PricedItem *item;
    int32_t field_word[MOST_ITEMS], field_shift[MOST_ITEMS], words;
    uint64_t offset[WORDS], guard[WORDS];
    Built *built;
    int32_t count, capacity;
    int64_t joins_left;
    int32_t *place;
    uint32_t places;
    Ranked *ranked; /* the rectangles of each level that are built upon, most worth first */
    int32_t ranked_start[MOST_LEVELS + 2];
    int32_t level_from; /* first rectangle of the level in work */
    int32_t most_on_level;
    int cut_short;      /* a level had more rectangles than may be built upon */
    int32_t least_x, least_y; /* of any item */
    float ask;
    int32_t worthless; /* items of no worth take part too */
    int32_t *found; /* the best columns, least worth first is at found[least] */
    int32_t found_count, found_capacity;
} Assembly;

/* With the critical items that are not used yet. */
static float completion(const Assembly *a, int32_t used, int32_t x, int32_t y) {
    int32_t state = a->grid->states - 1 - used;
    if (a->scale_x != 1) x /= a->scale_x;
    if (a->scale_y != 1) y /= a->scale_y;
    return a->rest[place_of(a->grid, state, a->left_x[x], a->left_y[y])];
}

/* Each item gets a bit field with room for its count, and a guard bit that shows an overrun: one addition
 * of words adds all counts of two rectangles, and one mask checks them all. */
static int lay_fields(Assembly *a) {
    int32_t word = 0, bit = 0;
    for (int32_t i = 0; i < a->items; i++) {
        int32_t bits = 1;
        while (((int64_t)1 << bits) <= a->item[i].count) bits++;
        if (bit + bits + 1 > 64) {
            word++;
            bit = 0;
        }
        if (word >= WORDS || i >= MOST_ITEMS) return 0;
        a->field_word[i] = word;
        a->field_shift[i] = bit;
        uint64_t room = ((uint64_t)1 << bits) - 1 - (uint64_t)a->item[i].count;
        a->offset[word] |= room << bit;
        a->guard[word] |= (uint64_t)1 << (bit + bits);
        bit += bits + 1;
    }
    a->words = word + 1;
    return 1;
}

static int within_counts(const Assembly *a, const Built *p, const Built *q, uint64_t *use) {
    uint64_t over = 0;
    for (int32_t w = 0; w < a->words; w++) {
        use[w] = p->use[w] + q->use[w];
        over |= (use[w] + a->offset[w]) & a->guard[w];
    }
    return over == 0;
}

static void note_column(Assembly *a, int32_t number) {
    int32_t at = a->found_count;
    if (a->found_count < a->found_capacity) {
        a->found[a->found_count++] = number;
    } else { /* it replaces the least, and only better ones are asked for from now on */
        at = 0;
        for (int32_t f = 1; f < a->found_count; f++)
            if (a->built[a->found[f]].worth < a->built[a->found[at]].worth) at = f;
        a->found[at] = number;
    }
    if (a->found_count < a->found_capacity) return;
    float least = a->built[a->found[0]].worth;
    for (int32_t f = 1; f < a->found_count; f++) {
        float worth = a->built[a->found[f]].worth;
        if (worth < least) least = worth;
    }
    if (least > a->ask) a->ask = least;
}

/* Returns 0 when there is no more room. */
static int add(Assembly *a, const Built *candidate) {
    uint64_t hash = 1469598103934665603u;
    for (int32_t w = 0; w < a->words; w++) {
        hash ^= candidate->use[w];
        hash *= 0x9e3779b97f4a7c15u;
        hash ^= hash >> 29;
    }
    uint32_t place = (uint32_t)(hash >> 20) & (a->places - 1);
    int known = 0;
    size_t size = (size_t)a->words * sizeof *candidate->use;
    for (int32_t b = a->place[place]; b != NOBODY; b = a->built[b].chain) {
        Built *other = &a->built[b];
        if (other->dead || memcmp(other->use, candidate->use, size) != 0) continue;
        if (other->x <= candidate->x && other->y <= candidate->y) return 1;
        known = 1;
        if (candidate->x <= other->x && candidate->y <= other->y) other->dead = 1;
    }
    if (a->count == a->capacity) return 0;
    int32_t number = a->count++;
    a->built[number] = *candidate;
    a->built[number].chain = a->place[place];
    a->place[place] = number;
    if (!known && candidate->worth > a->ask) note_column(a, number);
    return 1;
}

/* Puts two rectangles together; one or both of the ways are within the bin. */
static int join(Assembly *a, int32_t p, int32_t q) {
    const Built *one = &a->built[p], *other = &a->built[q];
    Built made = {.one = p, .other = q, .worth = one->worth + other->worth};
    if (!within_counts(a, one, other, made.use)) return 1;
    made.state = one->state + other->state;
    int32_t x = one->x > other->x ? one->x : other->x, y = one->y > other->y ? one->y : other->y;
    int32_t beside = one->x + other->x, above = one->y + other->y;
    for (made.axis = 0; made.axis < 2; made.axis++) {
        made.x = made.axis == 0 ? beside : x;
        made.y = made.axis == 1 ? above : y;
        if (made.x > a->length || made.y > a->width) continue;
        if (made.worth + completion(a, made.state, made.x, made.y) <= a->ask) continue;
        if (!add(a, &made)) return 0;
    }
    return 1;
}

static int singles(Assembly *a) {
    for (int32_t i = 0; i < a->items; i++) {
        const PricedItem *item = &a->item[i];
        if (item->count <= 0 || (item->worth <= 0 && !a->worthless)) continue;
        for (int32_t turned = 0; turned <= item->may_turn; turned++) {
            Built one = {.one = i, .other = turned, .axis = NOBODY, .worth = item->worth};
            one.x = turned ? item->width : item->length;
            one.y = turned ? item->length : item->width;
            if (one.x > a->length || one.y > a->width) continue;
            int32_t digit = a->grid->digit[i];
            if (digit >= 0) one.state = a->grid->weight[digit];
            if (one.worth + completion(a, one.state, one.x, one.y) <= a->ask) continue;
            one.use[a->field_word[i]] = (uint64_t)1 << a->field_shift[i];
            if (!add(a, &one)) return 0;
        }
    }
    return 1;
}

static int by_worth(const void *p, const void *q) {
    const Ranked *one = p, *other = q;
    if (one->worth != other->worth) return one->worth < other->worth ? 1 : -1;
    return (one->number > other->number) - (one->number < other->number);
}

/* Sorts a level by worth for join_levels.  If it has more rectangles than may be built upon, those that
 * promise least go, and the result is no longer exact. */
static void close_level(Assembly *a, int32_t level) {
    int32_t start = a->ranked_start[level], end = start;
    for (int32_t b = a->level_from; b < a->count; b++) {
        const Built *built = &a->built[b];
        if (built->dead) continue;
        float most = built->worth + completion(a, built->state, built->x, built->y);
        a->ranked[end++] = (Ranked){most, b, built->x, built->y};
    }
    if (end - start > a->most_on_level) {
        qsort(a->ranked + start, (size_t)(end - start), sizeof *a->ranked, by_worth);
        end = start + a->most_on_level;
        a->cut_short = 1;
    }
    for (int32_t r = start; r < end; r++) a->ranked[r].worth = a->built[a->ranked[r].number].worth;
    qsort(a->ranked + start, (size_t)(end - start), sizeof *a->ranked, by_worth);
    a->ranked_start[level + 1] = end;
    a->level_from = a->count;
}

/* Joins all pairs of the two levels that may still lead above what is asked for.  The second level is
 * sorted by worth, so the inner loop ends at the first that is too little.  No rectangle of a closed level
 * is replaced any more, since those with the same items are all of one level. */
static int join_levels(Assembly *a, int32_t low, int32_t high) {
    const Ranked *end = a->ranked + a->ranked_start[high + 1];
    for (int32_t p = a->ranked_start[low]; p < a->ranked_start[low + 1]; p++) {
        int32_t number = a->ranked[p].number;
        const Built *one = &a->built[number];
        int32_t x = one->x + a->least_x, y = one->y + a->least_y;
        float beside = x > a->length ? -1 : completion(a, one->state, x, one->y);
        float above = y > a->width ? -1 : completion(a, one->state, one->x, y);
        float most = one->worth + (beside > above ? beside : above);
        if (beside < 0 && above < 0) continue;
        int32_t room_x = a->length - one->x, room_y = a->width - one->y;
        const Ranked *start = low == high ? a->ranked + p : a->ranked + a->ranked_start[high];
        for (const Ranked *q = start; q < end && most + q->worth > a->ask; q++) {
            if (a->joins_left-- <= 0) return 0;
            if ((q->x <= room_x || q->y <= room_y) && !join(a, number, q->number)) return 0;
        }
        if (a->count - a->level_from >= (int64_t)CHOICE * a->most_on_level) {
            a->cut_short = 1;
            break;
        }
    }
    return 1;
}

/* Returns 1 if every rectangle worth a look was made, 0 if room, joins or levels ran out. */
static int assemble(Assembly *a) {
    a->ranked_start[1] = 0;
    if (!singles(a)) return 0;
    close_level(a, 1);
    int32_t last = 1;
    for (int32_t level = 2; level <= 2 * last; level++) {
        if (level >= MOST_LEVELS) return 0;
        for (int32_t low = 1; 2 * low <= level; low++)
            if (!join_levels(a, low, level - low)) return 0;
        close_level(a, level);
        if (a->ranked_start[level + 1] > a->ranked_start[level]) last = level;
    }
    return 1;
}

/* Writes a rectangle in preorder: a join as -1 - axis, x, y; a single item as its number, turned, 0. */
static int32_t write_tree(const Assembly *a, int32_t number, int32_t *out, int32_t room) {
    if (room < 3) return 0;
    const Built *b = &a->built[number];
    if (b->axis == NOBODY) {
        out[0] = b->one;
        out[1] = b->other;
        out[2] = 0;
        return 3;
    }
    out[0] = -1 - b->axis;
    out[1] = b->x;
    out[2] = b->y;
    int32_t first = write_tree(a, b->one, out + 3, room - 3);
    if (first == 0) return 0;
    int32_t second = write_tree(a, b->other, out + 3 + first, room - 3 - first);
    return second == 0 ? 0 : 3 + first + second;
}

/* Looks for the patterns of one bin that are worth more than `ask`, the most valuable `most_columns` of
 * them.  `rest`: what can be added (price_rests), on a grid coarser by scale_x and scale_y; `left_x`,
 * `left_y`: what is left beside each size there.  Of the grid's kinds none is used more often than its
 * `count`, which for a critical one is no more than its digit tells.  Items of no worth take part only if
 * `worthless`.  The trees go to `out`, one after another; how many integers that took is returned.  `joins`
 * is how many pairs may be looked at, then how many were.  `exact` tells whether nothing was left untried for
 * want of room. */
KERNEL_API int32_t assemble_columns(int32_t length, int32_t width, int32_t items, const PricedItem *item,
                                    int32_t scale_x, int32_t scale_y, const Grid *grid,
                                    const int32_t *left_x, const int32_t *left_y, const float *rest, float ask,
                                    int32_t most_built, int64_t *joins, int32_t most_on_level,
                                    int32_t most_columns, int32_t worthless, int32_t *out, int32_t room,
                                    int32_t *exact) {
    Assembly a = {.length = length, .width = width, .scale_x = scale_x, .scale_y = scale_y, .rest = rest};
    a.grid = grid;
    a.left_x = left_x;
    a.left_y = left_y;
    a.items = items;
    a.item = item;
    a.ask = ask;
    a.worthless = worthless;
    a.capacity = most_built;
    a.joins_left = *joins;
    a.most_on_level = most_on_level;
    a.found_capacity = most_columns;
    a.least_x = length;
    a.least_y = width;
    for (int32_t i = 0; i < items; i++)
        for (int32_t turned = 0; turned <= item[i].may_turn; turned++) {
            int32_t x = turned ? item[i].width : item[i].length, y = turned ? item[i].length : item[i].width;
            if (x < a.least_x) a.least_x = x;
            if (y < a.least_y) a.least_y = y;
        }
    *exact = 0;
    *joins = 0;
    if (!lay_fields(&a)) return 0;
    int64_t most_joins = a.joins_left;
    for (a.places = 1024; a.places < (uint32_t)most_built; a.places *= 2) {}
    a.built = malloc((size_t)most_built * sizeof *a.built);
    a.ranked = malloc((size_t)most_built * sizeof *a.ranked);
    a.place = malloc(a.places * sizeof *a.place);
    a.found = malloc((size_t)most_columns * sizeof *a.found);
    int32_t written = 0;
    if (a.built && a.ranked && a.place && a.found) {
        memset(a.place, 0xff, a.places * sizeof *a.place);
        *exact = assemble(&a) && !a.cut_short;
        *joins = most_joins - (a.joins_left > 0 ? a.joins_left : 0);
        for (int32_t f = 0; f < a.found_count; f++) {
            int32_t size = write_tree(&a, a.found[f], out + written, room - written);
            if (size == 0) {
                *exact = 0;
                break;
            }
            written += size;
        }
    }
    free(a.built);
    free(a.ranked);
    free(a.place);
    free(a.found);
    return written;
}
