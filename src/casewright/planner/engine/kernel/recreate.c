/* Recreate: put the items that are out back in, each where it spoils least.
 *
 * Hard items go first, while there is most room.  Each goes to the place that loses least worth of free
 * rectangles, among all free rectangles of all open layouts, in both orientations and with either cut
 * first.  Now and then a place is overlooked on purpose, for a greedy insertion would too often make the
 * same plan again ("blinks": J. Christiaens, G. Vanden Berghe, Slack induction by string removals for
 * vehicle routing problems, Transportation Science 54(2), 2020).
 */
#include "search.h"

enum { BLINK_ONE_IN = 64 };

/* How far the order strays from the hardest first. */
static const double NOISE = 0.1;

/* The worth lost when a piece of along x across goes into a free rectangle of free x cross.  Two free
 * rectangles replace it: the one at the free end, and the one beside the piece.  Worth is the square of
 * the area, so one large rectangle is worth more than two small ones. */
static double loss_of(double free, double cross, double along, double across, int keeps_slack,
                      double unit) {
    double whole = free * cross * unit;
    double end = (free - along) * cross * unit;
    double slack = keeps_slack ? along * (cross - across) * unit : 0.0;
    return whole * whole - end * end - slack * slack;
}

static void consider(Insertion *best, int32_t layout, int32_t strip, int32_t turned,
                     int32_t crosswise, double loss) {
    if (best->layout != NONE && loss >= best->loss) return;
    *best = (Insertion){layout, strip, turned, crosswise, loss};
}

static void try_strip(Search *search, const Node *at, int32_t slot, int32_t strip,
                      const ItemType *item, Insertion *best) {
    int32_t stages = search->rules.stages;
    for (int32_t turned = 0; turned <= (item->may_turn && item->length != item->width); turned++) {
        int32_t on_x = turned ? item->width : item->length;
        int32_t on_y = turned ? item->length : item->width;
        int32_t along = at->axis == ALONG_LENGTH ? on_x : on_y;
        int32_t across = at->axis == ALONG_LENGTH ? on_y : on_x;
        if (along > at->free || across > at->cross) continue;
        if (next_random(search) % BLINK_ONE_IN == 0) continue;
        consider(best, slot, strip, turned, 0,
                 loss_of(at->free, at->cross, along, across, at->depth + 2 <= stages, search->unit));
        if (along < at->free && across < at->cross && at->depth + 2 <= stages)
            consider(best, slot, strip, turned, 1,
                     loss_of(at->cross, at->free, across, along, at->depth + 3 <= stages, search->unit));
    }
}

/* Tries all free rectangles of a layout that are large enough, and notes how large the largest is, so that
 * the layout is skipped next time by larger items. */
static void try_layout(Search *search, int32_t slot, int32_t number, Insertion *best) {
    Layout *layout = &search->layout[slot];
    int64_t area = search->item_area[number], roomiest = 0;
    if (layout->bin == NONE || layout->roomiest < area) return;
    for (int32_t n = next_roomy(layout, 0); n != NONE; n = next_roomy(layout, n + 1)) {
        const Node *at = &layout->node[n];
        search->work += RECTANGLE_WORK;
        int64_t room = (int64_t)at->free * at->cross;
        if (room > roomiest) roomiest = room;
        if (room >= area) try_strip(search, at, slot, n, &search->item[number], best);
    }
    layout->roomiest = roomiest;
}

static int fits_bin(const ItemType *item, int32_t turned, const BinType *bin) {
    int32_t on_x = turned ? item->width : item->length;
    int32_t on_y = turned ? item->length : item->width;
    return on_x <= bin->length && on_y <= bin->width;
}

/* A new layout for an item that found no place, cheap for its area with some noise; NONE if stock or the goal
 * forbid one. */
static int32_t open_for(Search *search, const ItemType *item) {
    int32_t chosen = NONE;
    double best = 0;
    for (int32_t b = 0; b < search->bins; b++) {
        const BinType *bin = &search->bin[b];
        if (search->stock[b] <= 0 || search->cost + bin->price > search->cost_limit) continue;
        if (!fits_bin(item, 0, bin) && !(item->may_turn && fits_bin(item, 1, bin))) continue;
        double area = (double)bin->length * bin->width * search->unit;
        double rank = (double)bin->price / area * (1.0 + (double)(next_random(search) % 1024) / 1024.0);
        if (chosen == NONE || rank < best) {
            chosen = b;
            best = rank;
        }
    }
    if (chosen == NONE) return NONE;
    int32_t first = search->rules.first_cut;
    int32_t axis = first == 1 ? ALONG_WIDTH : first == 2 ? ALONG_LENGTH : random_below(search, 2);
    return open_layout(search, chosen, axis);
}

static int place(Search *search, int32_t number) {
    const ItemType *item = &search->item[number];
    Insertion best = {.layout = NONE};
    for (int32_t s = 0; s < search->slots; s++) try_layout(search, s, number, &best);
    if (best.layout == NONE) {
        int32_t slot = open_for(search, item);
        if (slot == NONE) return 0;
        for (int tries = 0; tries < 8 && best.layout == NONE; tries++)
            try_strip(search, &search->layout[slot].node[0], slot, 0, item, &best);
        if (best.layout == NONE) {
            touch(search, slot);
            close_if_empty(search, slot);
            return 0;
        }
    }
    Layout *layout = touch(search, best.layout);
    if (!layout_reserve(layout, layout->top + 3)) return 0;
    const Node *at = &layout->node[best.strip];
    int upright = (at->axis == ALONG_LENGTH) != best.turned;
    layout_insert(layout, &best, number, upright ? item->length : item->width,
                  upright ? item->width : item->length, search->rules.stages);
    return 1;
}

/* How hard an item is, by a rule drawn for each recreation: mostly its weight, else a side, else chance. */
static double hardness(Search *search, const ItemType *item, int32_t rule) {
    double length = item->length, width = item->width, value;
    if (rule < 6) value = (double)search->weight[item - search->item];
    else if (rule < 8) value = length > width ? length : width;
    else if (rule < 9) value = length;
    else if (rule < 10) value = width;
    else if (rule < 11) value = length < width ? length : width;
    else return (double)(next_random(search) >> 11);
    return value * (1.0 + NOISE * random_share(search));
}

static int harder(const void *a, const void *b, const double *key) {
    double ka = key[*(const int32_t *)a], kb = key[*(const int32_t *)b];
    return (ka < kb) - (ka > kb);
}

static void sort_hardest_first(int32_t *order, int32_t count, const double *key) {
    for (int32_t gap = count / 2; gap > 0; gap = gap == 2 ? 1 : gap * 5 / 11)
        for (int32_t i = gap; i < count; i++) {
            int32_t moved = order[i], j = i;
            for (; j >= gap && harder(&order[j - gap], &moved, key) > 0; j -= gap) order[j] = order[j - gap];
            order[j] = moved;
        }
}

/* Returns 0 as soon as more weight than most_out has found no place: the state would be refused anyway. */
int recreate(Search *search, int64_t most_out) {
    int32_t count = search->out_count, rule = random_below(search, 12);
    search->work += (int64_t)ITEM_WORK * count;
    for (int32_t i = 0; i < count; i++) {
        search->order[i] = i;
        search->key[i] = hardness(search, &search->item[search->out[i]], rule);
    }
    sort_hardest_first(search->order, count, search->key);
    int32_t *number = search->order; /* turned from places in `out` into item numbers */
    for (int32_t i = 0; i < count; i++) number[i] = search->out[number[i]];
    search->out_count = 0;
    search->out_weight = 0;
    int32_t missed = NONE; /* what one copy did not find, the next one will not find either */
    for (int32_t i = 0; i < count; i++) {
        int32_t it = number[i];
        if (it == missed || !place(search, it)) {
            missed = it;
            search->out[search->out_count++] = it;
            search->out_weight += search->weight[it];
            if (search->out_weight > most_out) return 0;
        }
    }
    return 1;
}
