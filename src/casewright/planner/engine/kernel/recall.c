/* Recall: empty a few layouts, and recombine remembered layouts over their items and those that are out.
 *
 * Recreate puts one item after another where it spoils least, and seldom finds the best there is for the
 * items of three or four bins.  But most good layouts of those items have been seen before, each in some
 * other plan.  So a small set packing over them is solved, by a few greedy tries with noise, and recreate
 * goes on with what is left. Half of the time one remembered layout is put in first and the layouts that
 * hold its items are the ones emptied: layouts drawn blindly seldom hold what a remembered one needs.  Of
 * 98 runs on hard instances 43 found their plan without recall and 55 to 63 with it (patterns of many
 * plans put together: M. Monaci, P. Toth, INFORMS Journal on Computing 18, 2006; here inside the search).
 */
#include "search.h"

#include <string.h>

enum { FEWEST_EMPTIED = 2, MOST_EMPTIED = 6, MOST_CANDIDATES = 100, MOST_TRIES = 20, ALL_ONE_IN = 4 };
enum { MOST_DRAWS = 8, MOST_MORE = 2 };

/* How far the choice strays from the heaviest, for the first layout of a set and for the others.  The
 * first decides most, so it varies most. */
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

/* The layouts that hold the items of one remembered. */
typedef struct {
    int32_t slot[MOST_EMPTIED + 1];
    int32_t count, useful;
} Holders;

typedef struct {
    const int32_t *code;
    int32_t nodes;
} Nodes;

static Nodes nodes_of(const Pool *pool, int32_t place) {
    int32_t first = pool->layout[place].start + HEAD;
    return (Nodes){pool->code.number + first, (end_of(pool, place) - first) / TO_A_NODE};
}

static void put_back(Search *search, const int32_t *code, int32_t nodes) {
    for (int32_t n = 0; n < nodes; n++)
        if (code[n * TO_A_NODE] >= 0) search->at_hand[code[n * TO_A_NODE]]++;
}

/* Takes the layout's items from those at hand; takes none and returns 0 if one is missing. */
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

/* Remembered layouts whose items are all at hand, beginning anywhere.  The bit mask rules out most at
 * once. */
static int32_t find_candidates(Search *search, Candidate *candidate) {
    const Pool *pool = &search->pool;
    uint64_t mask = mask_at_hand(search);
    int32_t found = 0, place = random_below(search, pool->count);
    for (int32_t seen = 0; seen < pool->count && found < MOST_CANDIDATES; seen++) {
        search->work += REMEMBERED_WORK;
        uint64_t its = pool->layout[place].mask;
        if (!(its & ~mask) && take(search, place)) {
            give(search, place);
            candidate[found++] = (Candidate){place, its, weight_of(search, place)};
        }
        if (++place == pool->count) place = 0;
    }
    return found;
}

/* Chooses the heaviest candidate, but for some noise, whose items are all at hand, and takes them. */
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

/* The heaviest of a few greedy sets of up to `most` candidates that share no items. */
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

/* Only what is still at hand stays out. */
static void keep_out_what_is_at_hand(Search *search) {
    int32_t count = 0;
    for (int32_t i = 0; i < search->out_count; i++) {
        int32_t item = search->out[i];
        if (search->at_hand[item]-- > 0) search->out[count++] = item;
    }
    search->out_count = count;
}

/* Which layout holds each item, or NONE: of copies the last. */
static void note_where(Search *search) {
    memset(search->where, 0xff, (size_t)search->items * sizeof *search->where);
    for (int32_t s = 0; s < search->slots; s++) {
        const Layout *layout = &search->layout[s];
        for (int32_t n = 0; layout->bin != NONE && n < layout->top; n++)
            if (layout->node[n].item >= 0) search->where[layout->node[n].item] = s;
    }
}

/* Useful if there are not too many of them, and if it would not just replace a layout that holds all its
 * items. */
static Holders holders_of(const Search *search, int32_t place) {
    Nodes all = nodes_of(&search->pool, place);
    Holders holders = {.count = 0};
    int32_t out = 0;
    for (int32_t n = 0; n < all.nodes && holders.count <= MOST_EMPTIED; n++) {
        int32_t item = all.code[n * TO_A_NODE], seen = 0;
        if (item == STRIP) continue;
        if (search->at_hand[item] > 0) {
            out = 1;
            continue;
        }
        while (seen < holders.count && holders.slot[seen] != search->where[item]) seen++;
        holders.slot[seen] = search->where[item];
        if (seen == holders.count) holders.count++;
    }
    holders.useful = holders.count > 0 && holders.count + out > 1 && holders.count <= MOST_EMPTIED;
    return holders;
}

/* Draws some remembered layouts, chooses the one whose items fewest layouts hold, and empties those; NONE
 * if none drawn is of use. */
static int32_t make_way(Search *search, int32_t *emptied) {
    int32_t chosen = NONE;
    Holders fewest = {.count = MOST_EMPTIED + 1};
    note_at_hand(search);
    note_where(search);
    for (int32_t draws = 1 + random_below(search, MOST_DRAWS); draws > 0; draws--) {
        int32_t place = random_below(search, search->pool.count);
        Holders its = holders_of(search, place);
        if (!its.useful || its.count >= fewest.count) continue;
        fewest = its;
        chosen = place;
    }
    if (chosen == NONE) return NONE;
    for (int32_t h = 0; h < fewest.count; h++) empty(search, fewest.slot[h]);
    *emptied = fewest.count;
    return chosen;
}

void recall(Search *search) {
    int32_t emptied = 0;
    int32_t first = random_below(search, 2) ? make_way(search, &emptied) : NONE;
    int32_t more = first == NONE ? FEWEST_EMPTIED + random_below(search, MOST_EMPTIED - FEWEST_EMPTIED + 1)
                                 : random_below(search, MOST_MORE + 1);
    for (int32_t m = 0; m < more; m++) empty(search, draw_layout(search));
    emptied = emptied + more < MOST_EMPTIED ? emptied + more : MOST_EMPTIED;
    note_at_hand(search);
    if (first != NONE) {
        install(search, first);
        emptied--;
    }
    Candidate candidate[MOST_CANDIDATES];
    int32_t candidates = find_candidates(search, candidate);
    int32_t most = random_below(search, ALL_ONE_IN) ? emptied - 1 : emptied;
    Choice choice = choose(search, candidate, candidates, most);
    for (int32_t c = 0; c < choice.count; c++) install(search, candidate[choice.candidate[c]].place);
    keep_out_what_is_at_hand(search);
}
