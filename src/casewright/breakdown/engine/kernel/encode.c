/* A plan as a row of integers, and the making and freeing of a search.
 *
 * A layout: its bin, the axis of its root, the number of its root's children, then the nodes in
 * preorder.  A node: item (or -1 for a strip), turned, extent along its parent's axis, children.
 */
#include <stdlib.h>
#include <string.h>

#include "search.h"

static int put(Search *search, int32_t value) {
    if (search->kept_length == search->kept_capacity) {
        int32_t capacity = search->kept_capacity * 2 + 256;
        int32_t *grown = realloc(search->kept, (size_t)capacity * sizeof *grown);
        if (!grown) return 0;
        search->kept = grown;
        search->kept_capacity = capacity;
    }
    search->kept[search->kept_length++] = value;
    return 1;
}

static int32_t children_of(const Layout *layout, int32_t slot) {
    int32_t count = 0;
    for (int32_t c = layout->node[slot].first; c != NONE; c = layout->node[c].next) count++;
    return count;
}

static int put_children(Search *search, const Layout *layout, int32_t slot) {
    for (int32_t c = layout->node[slot].first; c != NONE; c = layout->node[c].next) {
        const Node *child = &layout->node[c];
        int32_t below = child->item == STRIP ? children_of(layout, c) : 0;
        if (!put(search, child->item == STRIP ? STRIP : child->item) || !put(search, child->turned) ||
            !put(search, child->extent) || !put(search, below))
            return 0;
        if (child->item == STRIP && !put_children(search, layout, c)) return 0;
    }
    return 1;
}

int encode(Search *search) {
    search->kept_length = 0;
    search->kept_cost = search->cost;
    for (int32_t s = 0; s < search->slots; s++) {
        const Layout *layout = &search->layout[s];
        if (layout->bin == NONE) continue;
        if (!put(search, layout->bin) || !put(search, layout->node[0].axis) ||
            !put(search, children_of(layout, 0)) || !put_children(search, layout, 0))
            return 0;
    }
    return 1;
}

/* The state as it stands, complete or not: for plans that stock does not suffice for. */
KERNEL_API int32_t search_encode(Search *search) { return encode(search); }

KERNEL_API const int32_t *search_kept(const Search *search) { return search->kept; }

KERNEL_API int32_t search_kept_length(const Search *search) { return search->kept_length; }

KERNEL_API int64_t search_out_area(const Search *search) { return search->score.out; }

KERNEL_API void search_free(Search *search) {
    if (!search) return;
    for (int32_t s = 0; search->layout && search->saved && s < search->copies; s++) {
        layout_free(&search->layout[s]);
        layout_free(&search->saved[s]);
    }
    free(search->item);
    free(search->bin);
    free(search->item_area);
    free(search->layout);
    free(search->saved);
    free(search->touched);
    free(search->stock);
    free(search->out);
    free(search->saved_out);
    free(search->order);
    free(search->key);
    free(search->kept);
    free(search);
}

static int allocate(Search *search) {
    size_t copies = (size_t)search->copies;
    search->item_area = calloc((size_t)search->items, sizeof *search->item_area);
    search->item = calloc((size_t)search->items, sizeof *search->item);
    search->bin = calloc((size_t)search->bins, sizeof *search->bin);
    search->stock = calloc((size_t)search->bins, sizeof *search->stock);
    search->layout = calloc(copies, sizeof *search->layout);
    search->saved = calloc(copies, sizeof *search->saved);
    search->touched = calloc(copies, sizeof *search->touched);
    search->out = calloc(copies, sizeof *search->out);
    search->saved_out = calloc(copies, sizeof *search->saved_out);
    search->order = calloc(copies, sizeof *search->order);
    search->key = calloc(copies, sizeof *search->key);
    return search->item_area && search->item && search->bin && search->stock && search->layout &&
           search->saved && search->touched && search->out && search->saved_out && search->order &&
           search->key;
}

/* NULL when memory does not suffice.  Nothing is placed yet; the goal is any complete plan. */
KERNEL_API Search *search_new(int32_t items, const ItemType *item, int32_t bins, const BinType *bin,
                              const Rules *rules, uint64_t seed) {
    Search *search = calloc(1, sizeof *search);
    if (!search) return NULL;
    search->items = items;
    search->bins = bins;
    for (int32_t i = 0; i < items; i++) search->copies += item[i].count;
    if (!allocate(search)) {
        search_free(search);
        return NULL;
    }
    memcpy(search->item, item, (size_t)items * sizeof *item);
    memcpy(search->bin, bin, (size_t)bins * sizeof *bin);
    search->rules = *rules;
    search->random = seed;
    double largest = 0;
    for (int32_t b = 0; b < bins; b++) {
        search->stock[b] = bin[b].count;
        double area = (double)bin[b].length * bin[b].width;
        if (area > largest) largest = area;
    }
    search->unit = 1.0 / largest;
    for (int32_t s = 0; s < search->copies; s++) search->layout[s].bin = search->saved[s].bin = NONE;
    for (int32_t i = 0; i < items; i++) {
        search->item_area[i] = (int64_t)item[i].length * item[i].width;
        for (int32_t c = 0; c < item[i].count; c++) search->out[search->out_count++] = i;
        search->score.out += search->item_area[i] * item[i].count;
    }
    search->out_area = search->score.out;
    search->cost_limit = INT64_MAX / 4;
    for (int32_t h = 0; h < HISTORY; h++) search->history[h] = (Score){INT64_MAX, 0};
    return search;
}
