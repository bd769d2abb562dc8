/* Goal-driven ruin and recreate with late acceptance.
 *
 * G. Schrimpf, J. Schneider, H. Stamm-Wilbrandt, G. Dueck: Record breaking optimization results using the
 * ruin and recreate principle. Journal of Computational Physics 159 (2000).
 * S. Gardeyn, T. Wauters: A goal-driven ruin and recreate heuristic for the 2D variable-sized bin
 * packing problem with guillotine constraints. European Journal of Operational Research 301 (2022).
 * E. K. Burke, Y. Bykov: The late acceptance hill-climbing heuristic. EJOR 258 (2017).
 *
 * The number of bins hardly ever changes from one state to the next, so it gives a search no direction.
 * Hence the goal: a cost below that of the best complete plan.  States keep to it and may leave items out
 * instead; the weight left out, which changes all the time, is minimised first, and the worth of the free
 * rectangles is maximised second, so that what is free lies together.  Weights are areas at first and grow
 * while an item stays out (as the penalties of Y. Nagata, O. Braysy: A powerful route minimization
 * heuristic for the vehicle routing problem with time windows. Operations Research Letters 37, 2009).
 */
#include "search.h"

#include <assert.h>
#include <string.h>

enum { ITERATIONS_TO_A_LOOK = 32, RECALL_ONE_IN = 16 };
enum { ITERATIONS_TO_A_WEIGHING = 100, RAISED_BY_ONE_IN = 20, HEAVIEST = 64 };

/* Weights are whole numbers, as fine as that unless the area of all items is so large that the heaviest
 * together would pass the range. */
enum { FINE = 1000 };
static const double FINEST_SUM = 1e14;

/* splitmix64, S. Vigna, public domain algorithm */
uint64_t next_random(Search *search) {
    uint64_t z = (search->random += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

int32_t random_below(Search *search, int32_t limit) {
    return (int32_t)((next_random(search) >> 33) % (uint64_t)limit);
}

/* At least 0 and less than 1. */
double random_share(Search *search) { return (double)(next_random(search) >> 11) / 9007199254740992.0; }

/* To be called before a layout changes: keeps a copy, once in an iteration, and takes its worth off the sum.
 * Only the few layouts touched are copied, scored again, and put back if the new state is refused. */
Layout *touch(Search *search, int32_t slot) {
    Layout *layout = &search->layout[slot];
    if (layout->saved_in == search->iteration) return layout;
    layout_copy(&search->saved[slot], layout);
    search->work += LAYOUT_WORK + (int64_t)NODE_WORK * layout->top;
    layout->saved_in = search->iteration;
    search->touched[search->touched_count++] = slot;
    if (layout->bin != NONE) search->leftover -= layout_leftover(layout, search->unit);
    return layout;
}

void close_if_empty(Search *search, int32_t slot) {
    Layout *layout = &search->layout[slot];
    if (layout->items > 0) return;
    search->stock[layout->bin]++;
    search->cost -= search->bin[layout->bin].price;
    layout->bin = NONE;
    layout->top = 0;
}

int32_t open_layout(Search *search, int32_t bin, int32_t axis) {
    int32_t slot = 0;
    while (slot < search->slots && search->layout[slot].bin != NONE) slot++;
    if (slot == search->slots) search->slots++;
    Layout *layout = touch(search, slot);
    if (!layout_reserve(layout, 1)) return NONE;
    layout_open(layout, bin, search->bin[bin].length, search->bin[bin].width, axis);
    search->stock[bin]--;
    search->cost += search->bin[bin].price;
    return slot;
}

/* Back to the state before this iteration. */
static void take_back(Search *search) {
    for (int32_t t = 0; t < search->touched_count; t++) {
        int32_t slot = search->touched[t];
        Layout *now = &search->layout[slot], *then = &search->saved[slot];
        if (now->bin != NONE) {
            search->stock[now->bin]++;
            search->cost -= search->bin[now->bin].price;
        }
        if (then->bin != NONE) {
            search->stock[then->bin]--;
            search->cost += search->bin[then->bin].price;
        }
        Layout swap = *now;
        *now = *then;
        *then = swap;
    }
    search->leftover = search->score.leftover;
    search->out_count = search->saved_out_count;
    memcpy(search->out, search->saved_out, (size_t)search->out_count * sizeof *search->out);
    search->out_weight = search->score.out;
}

static int no_worse(Score a, Score b) {
    return a.out != b.out ? a.out < b.out : a.leftover >= b.leftover;
}

/* Late acceptance: a state is accepted if it is no worse than the one history_length acceptances ago,
 * which lets the search cross valleys as deep as it has lately climbed, with a single parameter.  The
 * queue holds the best score so far at each time rather than the score itself, so the bar never falls. */
static void remember(Search *search, Score score) {
    Score *head = &search->history[search->history_head];
    int32_t before = (search->history_head + search->history_length - 1) % search->history_length;
    const Score *last = &search->history[before];
    *head = no_worse(score, *last) ? score : *last;
    search->history_head = (search->history_head + 1) % search->history_length;
}

static void forget(Search *search) {
    for (int32_t h = 0; h < search->history_length; h++) search->history[h] = (Score){INT64_MAX, 0};
    search->history_head = 0;
    search->least = (Score){INT64_MAX, 0};
    search->since_least = 0;
}

static void begin_iteration(Search *search) {
    search->iteration++;
    search->touched_count = 0;
    search->saved_out_count = search->out_count;
    memcpy(search->saved_out, search->out, (size_t)search->out_count * sizeof *search->out);
}

int64_t out_area(const Search *search) {
    int64_t area = 0;
    for (int32_t i = 0; i < search->out_count; i++) area += search->item_area[search->out[i]];
    return area;
}

static int64_t weight_out(const Search *search) {
    int64_t weight = 0;
    for (int32_t i = 0; i < search->out_count; i++) weight += search->weight[search->out[i]];
    return weight;
}

void weigh_by_area(Search *search) {
    double all = 0;
    for (int32_t i = 0; i < search->items; i++) all += (double)search->item_area[i] * search->item[i].count;
    search->first_weight = all < FINEST_SUM ? FINE : 1;
    for (int32_t i = 0; i < search->items; i++) search->weight[i] = search->item_area[i] * search->first_weight;
    search->score.out = search->out_weight = weight_out(search);
}

/* What is left out now counts more from now on.  Otherwise the search comes to rest with the same few
 * awkward items out again and again: small ones cost little, and whatever makes room for them costs more.
 * Of 108 runs on hard instances 41 found their plan without this and 49 to 63 with it. */
static void weigh(Search *search) {
    for (int32_t i = 0; i < search->out_count; i++) {
        int32_t item = search->out[i];
        int64_t first = search->item_area[item] * search->first_weight;
        if (search->weight[item] < HEAVIEST * first) search->weight[item] += first / RAISED_BY_ONE_IN;
    }
    search->score.out = search->out_weight = weight_out(search);
}

/* The state's score after layouts were emptied outside of an ordinary iteration. */
static void score_anew(Search *search) {
    search->out_weight = weight_out(search);
    for (int32_t t = 0; t < search->touched_count; t++) {
        const Layout *layout = &search->layout[search->touched[t]];
        if (layout->bin != NONE) search->leftover += layout_leftover(layout, search->unit);
    }
    search->score = (Score){search->out_weight, search->leftover};
}

/* A new goal: to cost no more than `limit`.  The state goes on from where it is, less its emptiest bins. */
KERNEL_API void search_set_goal(Search *search, int64_t limit) {
    search->cost_limit = limit;
    forget(search);
    weigh_by_area(search);
    if (search->cost <= limit) return;
    begin_iteration(search);
    drop_to_limit(search);
    score_anew(search);
}

/* history: the longer, the slower and the deeper the search settles.  patience: how many iterations it may go
 * without a better state before it restarts from a part of its plan (0: it never restarts). */
KERNEL_API void search_set_pace(Search *search, int32_t history, int64_t patience) {
    search->history_length = history < LONGEST_HISTORY ? history : LONGEST_HISTORY;
    search->patience = patience;
    forget(search);
}

static void note_least(Search *search) {
    Score by_area = {out_area(search), search->leftover};
    if (no_worse(search->least, by_area)) return;
    search->least = by_area;
    search->since_least = 0;
}

static void begin_anew(Search *search) {
    begin_iteration(search);
    ruin_at_large(search);
    score_anew(search);
    forget(search);
}

static int complete(const Search *search) {
    return search->out_count == 0 && search->cost <= search->cost_limit;
}

/* The work done since the search began: the same on every machine, and about the nanoseconds it takes. */
KERNEL_API int64_t search_work(const Search *search) { return search->work; }

/* Runs until a complete plan within the goal is found (returns 1 and keeps the plan) or the iterations are
 * used up (returns 0).  `used` receives the number of iterations done. */
KERNEL_API int32_t search_run(Search *search, int64_t iterations, int64_t *used) {
    for (*used = 0; *used < iterations; ++*used) {
        if (search->patience && search->since_least++ > search->patience) begin_anew(search);
        begin_iteration(search);
        if (search->pool.count > 0 && random_below(search, RECALL_ONE_IN) == 0)
            recall(search);
        else
            ruin(search);
        Score front = search->history[search->history_head];
        int64_t most_out = front.out > search->score.out ? front.out : search->score.out;
        int all_tried = recreate(search, most_out);
        for (int32_t t = 0; t < search->touched_count; t++) {
            const Layout *layout = &search->layout[search->touched[t]];
            assert(layout->bin == NONE || layout_agrees(layout, restriction(search)));
            if (layout->bin != NONE) search->leftover += layout_leftover(layout, search->unit);
        }
        Score score = {search->out_weight, search->leftover};
        if (all_tried && (no_worse(score, front) || no_worse(score, search->score))) {
            search->score = score;
            remember(search, score);
            if (search->patience) note_least(search);
        } else {
            take_back(search);
        }
        if (search->iteration % ITERATIONS_TO_A_WEIGHING == 0) weigh(search);
        if (search->pool.place && search->iteration % ITERATIONS_TO_A_LOOK == 0)
            pool_remember(search, search->iteration - ITERATIONS_TO_A_LOOK);
        if (complete(search)) {
            ++*used;
            return encode(search);
        }
    }
    return 0;
}
