/* The state of one ruin-and-recreate search (see search.c). */
#ifndef CASEWRIGHT_SEARCH_H
#define CASEWRIGHT_SEARCH_H

#include "layout.h"

#ifdef _WIN32
#define KERNEL_API __declspec(dllexport)
#else
#define KERNEL_API __attribute__((visibility("default")))
#endif

typedef struct {
    int32_t length, width, count, may_turn;
} ItemType;

typedef struct {
    int32_t length, width, count, pad; /* count: how many there are at most */
    int64_t price;
} BinType;

typedef struct {
    int32_t stages;    /* the most stages of cuts, a last trimming not counted */
    int32_t first_cut; /* 0 any, 1 along the bin's length, 2 across it */
    int32_t restricted; /* every piece cut off has some item's size: see Sizes */
} Rules;

typedef struct {
    int64_t out;     /* weight of the items not placed */
    double leftover; /* worth of the free rectangles, to be made large */
} Score;

enum { FIRST_HISTORY = 500, LONGEST_HISTORY = 2000 };

/* Layouts as rows of integers, see encode.c: for each a head, then its nodes. */
enum { HEAD = 3, TO_A_NODE = 4 };

typedef struct {
    int32_t *number;
    int32_t length, capacity;
} Code;

/* Layouts worth remembering, whatever became of the plans they were in; see pool.c. */
typedef struct {
    uint64_t key, mask; /* mask: bits of its items */
    int32_t bin, start; /* where in the code it begins */
} Remembered;

/* Two items may share a bit. */
static inline uint64_t item_bit(int32_t item) { return (uint64_t)1 << item % 64; }

typedef struct {
    Remembered *layout;
    int32_t count, most;
    int32_t *place; /* hash table of `layout`s */
    Code code;
    double least_fill; /* area for a unit of price */
} Pool;

/* Where in the code a layout remembered ends. */
static inline int32_t end_of(const Pool *pool, int32_t place) {
    return place + 1 < pool->count ? pool->layout[place + 1].start : pool->code.length;
}

typedef struct {
    int32_t items, bins, copies; /* kinds of items, kinds of bins, items in all */
    ItemType *item;
    BinType *bin;
    Rules rules;
    Sizes sizes; /* none unless patterns are restricted */
    int64_t *item_area;
    int64_t *weight; /* of each kind of item: what it counts while it is left out */
    int64_t first_weight; /* for a unit of area, before it is raised */
    double unit; /* one over the largest bin's area */
    uint64_t random;

    Layout *layout; /* as many slots as there are copies; open ones have a bin */
    Layout *saved;
    int32_t slots;  /* slots ever used */
    int32_t *touched;
    int32_t touched_count;
    int32_t iteration;

    int32_t *stock; /* bins left of each kind */
    int64_t cost;   /* price of the open layouts */
    int64_t cost_limit;
    double leftover;

    int32_t *out; /* items not placed, by number */
    int32_t out_count;
    int64_t out_weight;
    int32_t *saved_out;
    int32_t saved_out_count;

    Score score; /* of the state last accepted */
    Score history[LONGEST_HISTORY];
    int32_t history_length, history_head;
    Score least; /* the best since the search began anew, by area */
    int64_t since_least, patience; /* patience: iterations without a better one before it does; 0: never */
    int32_t *order; /* scratch */
    double *key;
    int32_t *at_hand, *where; /* scratch: of each kind of item */
    Code kept; /* the best complete plan */
    Pool pool;
    int64_t work; /* see search_work */
} Search;

/* What takes the search its time, in nanoseconds as measured: a free rectangle looked at, a node and a layout
 * copied, an item put in order, a remembered layout looked at. */
enum { RECTANGLE_WORK = 6, NODE_WORK = 35, LAYOUT_WORK = 200, ITEM_WORK = 45, REMEMBERED_WORK = 2 };

static inline const Sizes *restriction(const Search *search) {
    return search->rules.restricted ? &search->sizes : NULL;
}

uint64_t next_random(Search *search);
int32_t random_below(Search *search, int32_t limit);
double random_share(Search *search);

Layout *touch(Search *search, int32_t slot);
void close_if_empty(Search *search, int32_t slot);
int32_t open_layout(Search *search, int32_t bin, int32_t axis);

void ruin(Search *search);
void ruin_at_large(Search *search);
int32_t draw_layout(Search *search);
void empty(Search *search, int32_t slot);
void recall(Search *search);
void drop_to_limit(Search *search);
int recreate(Search *search, int64_t most_out);

int64_t out_area(const Search *search);
void weigh_by_area(Search *search);

KERNEL_API void search_set_pace(Search *search, int32_t history, int64_t patience);

int encode(Search *search);
int code_append(Code *code, const int32_t *number, int32_t length);
int encode_layout(Code *code, const Layout *layout);
void pool_remember(Search *search, int32_t since);
void pool_free(Pool *pool);

#endif
