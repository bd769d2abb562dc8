/* A plan as a row of integers, and the making and freeing of a search.
 *
 * A layout: its bin, the axis of its root, the number of its root's children, then the nodes in
 * preorder.  A node: item (or -1 for a strip), turned, extent along its parent's axis, children.
 */
#include <stdlib.h>
#include <string.h>

#include "search.h"

static int put(Code *code, int32_t value) {
    if (code->length == code->capacity) {
        int32_t capacity = code->capacity * 2 + 256;
        int32_t *grown = realloc(code->number, (size_t)capacity * sizeof *grown);
        if (!grown) return 0;
        code->number = grown;
        code->capacity = capacity;
    }
    code->number[code->length++] = value;
    return 1;
}

int code_append(Code *code, const int32_t *number, int32_t length) {
    for (int32_t i = 0; i < length; i++)
        if (!put(code, number[i])) return 0;
    return 1;
}

static int32_t children_of(const Layout *layout, int32_t slot) {
    int32_t count = 0;
    for (int32_t c = layout->node[slot].first; c != NONE; c = layout->node[c].next) count++;
    return count;
}

static int put_children(Code *code, const Layout *layout, int32_t slot) {
    for (int32_t c = layout->node[slot].first; c != NONE; c = layout->node[c].next) {
        const Node *child = &layout->node[c];
        int32_t below = child->item == STRIP ? children_of(layout, c) : 0;
        if (!put(code, child->item == STRIP ? STRIP : child->item) || !put(code, child->turned) ||
            !put(code, child->extent) || !put(code, below))
            return 0;
        if (child->item == STRIP && !put_children(code, layout, c)) return 0;
    }
    return 1;
}

int encode_layout(Code *code, const Layout *layout) {
    return put(code, layout->bin) && put(code, layout->node[0].axis) &&
           put(code, children_of(layout, 0)) && put_children(code, layout, 0);
}

int encode(Search *search) {
    search->kept.length = 0;
    for (int32_t s = 0; s < search->slots; s++)
        if (search->layout[s].bin != NONE && !encode_layout(&search->kept, &search->layout[s])) return 0;
    return 1;
}

/* The state as it stands, complete or not: for plans that stock does not suffice for. */
KERNEL_API int32_t search_encode(Search *search) { return encode(search); }

KERNEL_API const int32_t *search_kept(const Search *search) { return search->kept.number; }

KERNEL_API int32_t search_kept_length(const Search *search) { return search->kept.length; }

KERNEL_API int64_t search_out_area(const Search *search) { return out_area(search); }

KERNEL_API void search_free(Search *search) {
    if (!search) return;
    for (int32_t s = 0; search->layout && search->saved && s < search->copies; s++) {
        layout_free(&search->layout[s]);
        layout_free(&search->saved[s]);
    }
    free(search->item);
    free(search->bin);
    free(search->sizes.size[0]);
    free(search->sizes.size[1]);
    free(search->item_area);
    free(search->weight);
    free(search->layout);
    free(search->saved);
    free(search->touched);
    free(search->stock);
    free(search->out);
    free(search->saved_out);
    free(search->order);
    free(search->key);
    free(search->at_hand);
    free(search->where);
    free(search->kept.number);
    pool_free(&search->pool);
    free(search);
}

static int by_size(const void *a, const void *b) {
    return *(const int32_t *)a - *(const int32_t *)b;
}

/* The items' sizes along an axis, each once. */
static void list_sizes(Search *search, int32_t axis) {
    int32_t *size = search->sizes.size[axis], count = 0, different = 0;
    for (int32_t i = 0; i < search->items; i++) {
        const ItemType *item = &search->item[i];
        size[count++] = axis == ALONG_LENGTH ? item->length : item->width;
        if (item->may_turn) size[count++] = axis == ALONG_LENGTH ? item->width : item->length;
    }
    qsort(size, (size_t)count, sizeof *size, by_size);
    for (int32_t s = 0; s < count; s++)
        if (s == 0 || size[s] != size[s - 1]) size[different++] = size[s];
    search->sizes.count[axis] = different;
}

static int allocate(Search *search) {
    size_t copies = (size_t)search->copies;
    for (int32_t axis = 0; axis < 2; axis++)
        search->sizes.size[axis] = calloc(2 * (size_t)search->items, sizeof *search->sizes.size[axis]);
    search->item_area = calloc((size_t)search->items, sizeof *search->item_area);
    search->weight = calloc((size_t)search->items, sizeof *search->weight);
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
    search->at_hand = calloc((size_t)search->items, sizeof *search->at_hand);
    search->where = calloc((size_t)search->items, sizeof *search->where);
    return search->sizes.size[0] && search->sizes.size[1] && search->item_area && search->weight &&
           search->item && search->bin && search->stock && search->layout && search->saved && search->touched && search->out && search->saved_out &&
           search->order && search->key && search->at_hand && search->where;
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
    for (int32_t axis = 0; axis < 2 && rules->restricted; axis++) list_sizes(search, axis);
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
    }
    weigh_by_area(search);
    search->cost_limit = INT64_MAX / 4;
    search_set_pace(search, FIRST_HISTORY, 0);
    return search;
}
