#include "layout.h"

#include <stdlib.h>
#include <string.h>

static size_t words_of(int32_t slots) { return ((size_t)slots + SLOTS_IN_A_WORD - 1) / SLOTS_IN_A_WORD; }

static int has_room(const Node *node) { return node->item == STRIP && node->free > 0 && node->cross > 0; }

/* After each change of a strip's sizes, or of what a slot is. */
static void note_room(Layout *layout, int32_t slot) {
    uint64_t bit = (uint64_t)1 << slot % SLOTS_IN_A_WORD, *word = &layout->roomy[slot / SLOTS_IN_A_WORD];
    *word = has_room(&layout->node[slot]) ? *word | bit : *word & ~bit;
}

int layout_reserve(Layout *layout, int32_t nodes) {
    if (nodes <= layout->capacity) return 1;
    int32_t capacity = layout->capacity < 8 ? 16 : layout->capacity * 2;
    while (capacity < nodes) capacity *= 2;
    Node *node = realloc(layout->node, (size_t)capacity * sizeof *node);
    if (!node) return 0;
    layout->node = node;
    uint64_t *roomy = realloc(layout->roomy, words_of(capacity) * sizeof *roomy);
    if (!roomy) return 0;
    layout->roomy = roomy;
    layout->capacity = capacity;
    return 1;
}

void layout_free(Layout *layout) {
    free(layout->node);
    free(layout->roomy);
    layout->node = NULL;
    layout->roomy = NULL;
    layout->capacity = 0;
}

int layout_copy(Layout *to, const Layout *from) {
    if (!layout_reserve(to, from->top)) return 0;
    Node *node = to->node;
    uint64_t *roomy = to->roomy;
    int32_t capacity = to->capacity;
    *to = *from;
    to->node = node;
    to->roomy = roomy;
    to->capacity = capacity;
    if (from->top > 0) {
        memcpy(node, from->node, (size_t)from->top * sizeof *node);
        memcpy(roomy, from->roomy, words_of(from->top) * sizeof *roomy);
    }
    return 1;
}

void layout_open(Layout *layout, int32_t bin, int32_t length, int32_t width, int32_t axis) {
    layout->bin = bin;
    layout->length = length;
    layout->width = width;
    layout->top = 1;
    layout->vacant = NONE;
    layout->items = 0;
    layout->filled = 0;
    layout->roomiest = (int64_t)length * width;
    Node *root = &layout->node[0];
    memset(root, 0, sizeof *root);
    root->item = STRIP;
    root->parent = root->first = root->next = NONE;
    root->axis = axis;
    root->len = root->free = axis == ALONG_LENGTH ? length : width;
    root->cross = axis == ALONG_LENGTH ? width : length;
    layout->roomy[0] = 0;
    note_room(layout, 0);
}

/* The caller has reserved room.  The bit of a slot that is not in use is clear. */
static int32_t new_child(Layout *layout, int32_t parent, int32_t extent) {
    int32_t slot = layout->vacant;
    if (slot == NONE) {
        slot = layout->top++;
        if (slot % SLOTS_IN_A_WORD == 0) layout->roomy[slot / SLOTS_IN_A_WORD] = 0;
    } else {
        layout->vacant = layout->node[slot].next;
    }
    Node *child = &layout->node[slot], *above = &layout->node[parent];
    child->parent = parent;
    child->first = NONE;
    child->extent = extent;
    child->next = above->first;
    above->first = slot;
    above->free -= extent;
    note_room(layout, parent);
    return slot;
}

int32_t layout_add_strip(Layout *layout, int32_t parent, int32_t extent) {
    int32_t slot = new_child(layout, parent, extent);
    Node *child = &layout->node[slot];
    const Node *above = &layout->node[parent];
    child->item = STRIP;
    child->axis = 1 - above->axis;
    child->depth = above->depth + 1;
    child->len = child->free = above->cross;
    child->cross = extent;
    note_room(layout, slot);
    return slot;
}

int32_t layout_add_item(Layout *layout, int32_t strip, int32_t item, int32_t turned, int32_t along,
                        int32_t across) {
    int32_t slot = new_child(layout, strip, along);
    Node *child = &layout->node[slot];
    child->item = item;
    child->turned = turned;
    child->need = across;
    layout->items++;
    layout->filled += (int64_t)along * across;
    return slot;
}

/* `along` and `across` are the item's sizes with respect to the strip's axis.  What lies beside an
 * item across its strip stays usable as long as the stages allow one more cut; after the last stage
 * only the trimming of that one item is left, and the rest beside it is lost. */
void layout_insert(Layout *layout, const Insertion *way, int32_t item, int32_t along, int32_t across,
                   int32_t stages) {
    int32_t strip = way->strip;
    if (way->crosswise) {
        strip = layout_add_strip(layout, strip, layout->node[strip].free);
        int32_t swap = along;
        along = across;
        across = swap;
    }
    const Node *at = &layout->node[strip];
    if (across < at->cross && at->depth + 2 <= stages) {
        strip = layout_add_strip(layout, strip, along);
        layout_add_item(layout, strip, item, way->turned, across, along);
    } else {
        layout_add_item(layout, strip, item, way->turned, along, across);
    }
}

static int32_t take_out(Layout *layout, int32_t slot, int32_t *out, const int64_t *area) {
    Node *node = &layout->node[slot];
    int32_t taken = 0;
    if (node->item == STRIP) {
        for (int32_t child = node->first; child != NONE;) {
            int32_t next = layout->node[child].next;
            taken += take_out(layout, child, out + taken, area);
            child = next;
        }
    } else {
        out[taken++] = node->item;
        layout->items--;
        layout->filled -= area[node->item];
    }
    node->item = VACANT;
    node->next = layout->vacant;
    layout->vacant = slot;
    note_room(layout, slot);
    return taken;
}

/* Of the sizes along an axis, the first that is no smaller; NONE when there is none. */
static int32_t size_from(const Sizes *sizes, int32_t axis, int32_t least) {
    int32_t low = 0, high = sizes->count[axis];
    while (low < high) {
        int32_t middle = (low + high) / 2;
        if (sizes->size[axis][middle] < least) low = middle + 1;
        else high = middle;
    }
    return low < sizes->count[axis] ? sizes->size[axis][low] : NONE;
}

/* The strip's child that is what was left of it, or NONE: always, where patterns are not restricted. */
static int32_t not_cut_off(const Layout *layout, int32_t strip, const Sizes *sizes) {
    const Node *at = &layout->node[strip];
    for (int32_t c = sizes ? at->first : NONE; c != NONE; c = layout->node[c].next) {
        int32_t extent = layout->node[c].extent;
        if (size_from(sizes, at->axis, extent) != extent) return c;
    }
    return NONE;
}

/* So much of the strip's length is not taken any more: it is free, or the child's that has what is left. */
static void give_back(Layout *layout, int32_t slot, int32_t size, const Sizes *sizes) {
    int32_t last = not_cut_off(layout, slot, sizes);
    if (last == NONE) {
        layout->node[slot].free += size;
        note_room(layout, slot);
        return;
    }
    Node *child = &layout->node[last];
    child->cross = child->extent = child->extent + size;
    note_room(layout, last);
    for (int32_t c = child->first; c != NONE; c = layout->node[c].next)
        if (layout->node[c].item == STRIP) {
            layout->node[c].len += size;
            give_back(layout, c, size, sizes);
        }
}

/* Narrows a strip to what its children need, to the profit of its parent. */
static void shrink_strip(Layout *layout, int32_t slot, const Sizes *sizes) {
    Node *strip = &layout->node[slot];
    int32_t need = 0;
    for (int32_t c = strip->first; c != NONE; c = layout->node[c].next) {
        const Node *child = &layout->node[c];
        int32_t its = child->item == STRIP ? child->len - child->free : child->need;
        if (its > need) need = its;
    }
    if (sizes) need = size_from(sizes, layout->node[strip->parent].axis, need);
    int32_t spare = strip->cross - need;
    if (need == NONE || spare <= 0) return;
    strip->cross = strip->extent = need;
    give_back(layout, strip->parent, spare, sizes);
    note_room(layout, slot);
    for (int32_t c = strip->first; c != NONE; c = layout->node[c].next) {
        Node *child = &layout->node[c];
        if (child->item == STRIP) {
            child->len -= spare;
            child->free -= spare;
            note_room(layout, c);
        }
    }
}

int32_t layout_remove(Layout *layout, int32_t slot, int32_t *out, const int64_t *area, int shrink,
                      const Sizes *sizes) {
    int32_t parent = layout->node[slot].parent;
    layout->roomiest = (int64_t)layout->length * layout->width;
    for (;;) { /* a strip left without children goes too */
        if (parent == NONE) return take_out(layout, 0, out, area);
        const Node *above = &layout->node[parent];
        if (above->first != slot || layout->node[slot].next != NONE) break;
        slot = parent;
        parent = above->parent;
    }
    Node *above = &layout->node[parent];
    int32_t *link = &above->first;
    while (*link != slot) link = &layout->node[*link].next;
    *link = layout->node[slot].next;
    give_back(layout, parent, layout->node[slot].extent, sizes);
    int32_t taken = take_out(layout, slot, out, area);
    if (shrink)
        for (int32_t s = parent; layout->node[s].parent != NONE; s = layout->node[s].parent)
            shrink_strip(layout, s, sizes);
    return taken;
}

/* Sum of the squares of the free rectangles' areas: one large rest is worth more than many small
 * ones.  `unit` scales an area. */
double layout_leftover(const Layout *layout, double unit) {
    double sum = 0;
    for (int32_t s = next_roomy(layout, 0); s != NONE; s = next_roomy(layout, s + 1)) {
        const Node *strip = &layout->node[s];
        double area = (double)strip->free * strip->cross * unit;
        sum += area * area;
    }
    return sum;
}

/* No strip has two children of other sizes, or one and room for more; none is longer than it may be. */
static int is_restricted(const Layout *layout, int32_t slot, const Sizes *sizes) {
    const Node *strip = &layout->node[slot];
    int32_t others = 0, taken = 0;
    for (int32_t c = strip->first; c != NONE; c = layout->node[c].next) {
        int32_t extent = layout->node[c].extent;
        taken += extent;
        others += size_from(sizes, strip->axis, extent) != extent;
    }
    return taken + strip->free == strip->len && (others == 0 || (others == 1 && strip->free == 0));
}

int layout_agrees(const Layout *layout, const Sizes *sizes) {
    for (int32_t s = 0; sizes && s < layout->top; s++)
        if (layout->node[s].item == STRIP && !is_restricted(layout, s, sizes)) return 0;
    for (int32_t s = 0; s < (int32_t)words_of(layout->top) * SLOTS_IN_A_WORD; s++) {
        int noted = layout->roomy[s / SLOTS_IN_A_WORD] >> s % SLOTS_IN_A_WORD & 1;
        if (noted != (s < layout->top && has_room(&layout->node[s]))) return 0;
        if (noted && (int64_t)layout->node[s].free * layout->node[s].cross > layout->roomiest) return 0;
    }
    return 1;
}
