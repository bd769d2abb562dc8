/* Ruin: take pieces, strips or whole layouts out of the plan.
 *
 * A node of the cut tree drawn at random goes with all that is cut from it, so most ruins are small and
 * some take half a bin.  Free room along a strip is one rectangle at its end (layout.h), so there is never
 * anything to merge afterwards.
 */
#include "search.h"

enum { FEWEST = 4, MOST = 20, WHOLE_LAYOUT_ONE_IN = 24 };

static double use_of(const Layout *layout) {
    return (double)layout->filled / ((double)layout->length * layout->width);
}

static int32_t random_open(Search *search) {
    if (search->slots == 0) return NONE;
    for (int tries = 0; tries < 64; tries++) {
        int32_t slot = random_below(search, search->slots);
        if (search->layout[slot].bin != NONE) return slot;
    }
    for (int32_t s = 0; s < search->slots; s++)
        if (search->layout[s].bin != NONE) return s;
    return NONE;
}

static void remove_from(Search *search, int32_t slot, int32_t node) {
    Layout *layout = touch(search, slot);
    /* A narrowed strip frees room beside it, a wide one takes larger items again. */
    int32_t shrink = random_below(search, 2);
    int32_t *out = search->out + search->out_count;
    search->out_count += layout_remove(layout, node, out, search->item_area, shrink, restriction(search));
    close_if_empty(search, slot);
}

static int32_t random_node(Search *search, const Layout *layout) {
    for (int tries = 0; tries < 64; tries++) {
        int32_t node = random_below(search, layout->top);
        if (layout->node[node].item == VACANT) continue;
        if (node > 0 || random_below(search, WHOLE_LAYOUT_ONE_IN) == 0) return node;
    }
    return 0;
}

/* Of two layouts drawn, the emptier one: it has more to gain, and may vanish. */
int32_t draw_layout(Search *search) {
    int32_t slot = random_open(search), other = random_open(search);
    if (slot != NONE && use_of(&search->layout[other]) < use_of(&search->layout[slot])) return other;
    return slot;
}

void ruin(Search *search) {
    int32_t pieces = FEWEST + random_below(search, MOST - FEWEST + 1);
    while (pieces-- > 0) {
        int32_t slot = draw_layout(search);
        if (slot == NONE) return;
        remove_from(search, slot, random_node(search, &search->layout[slot]));
    }
}

void empty(Search *search, int32_t slot) {
    if (slot != NONE) remove_from(search, slot, 0);
}

/* For a restart: gives up between a fifth and four fifths of all layouts, and keeps the rest as a
 * beginning. */
void ruin_at_large(Search *search) {
    int32_t share = 20 + random_below(search, 61);
    for (int32_t s = 0; s < search->slots; s++)
        if (search->layout[s].bin != NONE && random_below(search, 100) < share) remove_from(search, s, 0);
}

/* Gives up the emptiest layout until the open ones cost no more than the limit. */
void drop_to_limit(Search *search) {
    while (search->cost > search->cost_limit) {
        int32_t emptiest = NONE;
        for (int32_t s = 0; s < search->slots; s++) {
            const Layout *layout = &search->layout[s];
            if (layout->bin == NONE || search->bin[layout->bin].price == 0) continue;
            if (emptiest == NONE || use_of(layout) < use_of(&search->layout[emptiest])) emptiest = s;
        }
        if (emptiest == NONE) return;
        remove_from(search, emptiest, 0);
    }
}
