/* Recall: a few layouts are emptied, and layouts that the search came by before are put together anew over
 * their items and what is out.
 *
 * Recreate puts one item after another where it spoils least, and seldom comes by the best there is for the
 * items of three or four bins; most of their good layouts have been seen.  So a small set packing is solved,
 * by a few greedy tries with noise, and recreate goes on with what is left (patterns of many plans put
 * together: M. Monaci, P. Toth, INFORMS Journal on Computing 18, 2006; here inside the search).
 */
#include "search.h"

#include <string.h>

enum { FEWEST_EMPTIED = 2, MOST_EMPTIED = 6, MOST_CANDIDATES = 100, MOST_TRIES = 20, ALL_ONE_IN = 4 };

/* How far the choice strays from the heaviest: for the first layout of a set, and for the others. */
static const double FIRST_NOISE = 0.3, NOISE = 0.05;

typedef struct {
    int32_t place; /* in the pool */
    uint64_t mask;
    double weight; /* of its items */
} Candidate;

typedef struct {
    int32_t candidate[MOST_EMPTIED];
    int32_t count;
    double weight;
} Choice;

typedef struct {
    const int32_t *code;
    int32_t nodes;
} Nodes;

static Nodes nodes_of(const Pool *pool, int32_t place) {
    int32_t start = pool->layout[place].start;
    int32_t end = place + 1 < pool->count ? pool->layout[place + 1].start : pool->code.length;
    return (Nodes){pool->code.number + start + HEAD, (end - start - HEAD) / TO_A_NODE};
}

static void put_back(Search *search, const int32_t *code, int32_t nodes) {
    for (int32_t n = 0; n < nodes; n++)
        if (code[n * TO_A_NODE] >= 0) search->at_hand[code[n * TO_A_NODE]]++;
}

/* Takes the layout's items from those at hand; takes none and returns 0 when one is missing. */
static int take(Search *search, int32_t place) {
    Nodes all = nodes_of(&search->pool, place);
    for (int32_t n = 0; n < all.nodes; n++) {
        int32_t item = all.code[n * TO_A_NODE];
        if (item < 0 || search->at_hand[item]-- > 0) continue;
        put_back(search, all.code, n + 1);
        return 0;
    }
    return 1;
}

static void give(Search *search, int32_t place) {
    Nodes all = nodes_of(&search->pool, place);
    put_back(search, all.code, all.nodes);
}

static double weight_of(const Search *search, int32_t place) {
    Nodes all = nodes_of(&search->pool, place);
    int64_t weight = 0;
    for (int32_t n = 0; n < all.nodes; n++)
        if (all.code[n * TO_A_NODE] >= 0) weight += search->weight[all.code[n * TO_A_NODE]];
    return (double)weight;
}

static uint64_t mask_at_hand(const Search *search) {
    uint64_t mask = 0;
    for (int32_t i = 0; i < search->out_count; i++)
        if (search->at_hand[search->out[i]] > 0) mask |= item_bit(search->out[i]);
    return mask;
}

/* Layouts, from one drawn on, whose items are all at hand. */
static int32_t find_candidates(Search *search, Candidate *candidate) {
    const Pool *pool = &search->pool;
    uint64_t mask = mask_at_hand(search);
    int32_t found = 0, place = random_below(search, pool->count);
    for (int32_t seen = 0; seen < pool->count && found < MOST_CANDIDATES; seen++) {
        uint64_t its = pool->layout[place].mask;
        if (!(its & ~mask) && take(search, place)) {
            give(search, place);
            candidate[found++] = (Candidate){place, its, weight_of(search, place)};
        }
        if (++place == pool->count) place = 0;
    }
    return found;
}

/* Of the candidates that items are at hand for, the heaviest but for some noise: its items are taken. */
static int32_t take_one(Search *search, const Candidate *candidate, int32_t candidates, double noise) {
    uint64_t mask = mask_at_hand(search);
    int32_t chosen = NONE;
    double best = 0;
    for (int32_t c = 0; c < candidates; c++) {
        if (candidate[c].mask & ~mask) continue;
        double rank = candidate[c].weight * (1.0 + noise * random_share(search));
        if ((chosen != NONE && rank <= best) || !take(search, candidate[c].place)) continue;
        give(search, candidate[c].place);
        chosen = c;
        best = rank;
    }
    if (chosen != NONE) take(search, candidate[chosen].place);
    return chosen;
}

/* The heaviest of some sets of up to `most` candidates that do not share items. */
static Choice choose(Search *search, const Candidate *candidate, int32_t candidates, int32_t most) {
    Choice best = {.count = 0};
    for (int32_t tries = 1 + random_below(search, MOST_TRIES); tries > 0; tries--) {
        Choice now = {.count = 0};
        while (now.count < most) {
            int32_t c = take_one(search, candidate, candidates, now.count ? NOISE : FIRST_NOISE);
            if (c == NONE) break;
            now.candidate[now.count++] = c;
            now.weight += candidate[c].weight;
        }
        for (int32_t c = 0; c < now.count; c++) give(search, candidate[now.candidate[c]].place);
        if (now.weight > best.weight) best = now;
    }
    return best;
}

static const int32_t *build(const Search *search, Layout *layout, int32_t strip, int32_t children,
                            const int32_t *code) {
    for (; children > 0; children--) {
        int32_t number = code[0], turned = code[1], extent = code[2], below = code[3];
        code += TO_A_NODE;
        if (number == STRIP) {
            code = build(search, layout, layout_add_strip(layout, strip, extent), below, code);
            continue;
        }
        const ItemType *item = &search->item[number];
        int upright = (layout->node[strip].axis == ALONG_LENGTH) != turned;
        layout_add_item(layout, strip, number, turned, extent, upright ? item->width : item->length);
    }
    return code;
}

static void install(Search *search, int32_t place) {
    const Pool *pool = &search->pool;
    const int32_t *head = pool->code.number + pool->layout[place].start;
    int32_t bin = head[0], axis = head[1], children = head[2];
    if (search->stock[bin] <= 0 || search->cost + search->bin[bin].price > search->cost_limit) return;
    int32_t slot = open_layout(search, bin, axis);
    if (slot == NONE) return;
    Layout *layout = touch(search, slot);
    if (layout_reserve(layout, 1 + nodes_of(pool, place).nodes) && take(search, place))
        build(search, layout, 0, children, head + HEAD);
    close_if_empty(search, slot);
}

static void note_at_hand(Search *search) {
    memset(search->at_hand, 0, (size_t)search->items * sizeof *search->at_hand);
    for (int32_t i = 0; i < search->out_count; i++) search->at_hand[search->out[i]]++;
}

/* What is at hand is out, no more. */
static void keep_out_what_is_at_hand(Search *search) {
    int32_t count = 0;
    for (int32_t i = 0; i < search->out_count; i++) {
        int32_t item = search->out[i];
        if (search->at_hand[item]-- > 0) search->out[count++] = item;
    }
    search->out_count = count;
}

void recall(Search *search) {
    int32_t emptied = FEWEST_EMPTIED + random_below(search, MOST_EMPTIED - FEWEST_EMPTIED + 1);
    for (int32_t e = 0; e < emptied; e++) empty_a_layout(search);
    note_at_hand(search);
    Candidate candidate[MOST_CANDIDATES];
    int32_t candidates = find_candidates(search, candidate);
    int32_t most = random_below(search, ALL_ONE_IN) ? emptied - 1 : emptied;
    Choice choice = choose(search, candidate, candidates, most);
    for (int32_t c = 0; c < choice.count; c++) install(search, candidate[choice.candidate[c]].place);
    keep_out_what_is_at_hand(search);
}
