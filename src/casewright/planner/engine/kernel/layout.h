/* A layout: one bin and its guillotine cut tree.
 *
 * Every inner node is a strip whose children lie in a row along one axis; children that are strips have
 * theirs along the other.  Pieces of a strip may change places freely, so all that is unused along its
 * axis counts as one free rectangle at its end, `free` x `cross`.  There is never anything to merge, which
 * is what makes taking pieces out and putting them in so quick.
 */
#ifndef CASEWRIGHT_LAYOUT_H
#define CASEWRIGHT_LAYOUT_H

#include <stddef.h>
#include <stdint.h>

enum { SLOTS_IN_A_WORD = 64 };
enum { STRIP = -1, VACANT = -2, NONE = -1 };
enum { ALONG_LENGTH = 0, ALONG_WIDTH = 1 }; /* the axis on which a strip's children lie in a row */

typedef struct {
    int32_t item;   /* an item's number, STRIP or VACANT */
    int32_t turned; /* items: the item's width lies along the bin's length */
    int32_t parent;
    int32_t first;  /* strips: first child */
    int32_t next;   /* next sibling; in a VACANT slot the next vacant one */
    int32_t extent; /* size along the parent's axis */
    int32_t need;   /* items: size across the parent's axis */
    int32_t len;    /* strips: size along their own axis (the parent's cross) */
    int32_t cross;  /* strips: size across their own axis (their extent) */
    int32_t free;   /* strips: what no child has taken of len */
    int32_t axis;   /* strips */
    int32_t depth;  /* cuts of this strip are of stage depth + 1 */
} Node;

typedef struct {
    int32_t bin;    /* the bin's number, NONE when the layout is not in use */
    int32_t length, width;
    int32_t top;    /* slots in use, vacant ones included; slot 0 is the root */
    int32_t vacant; /* head of the chain of vacant slots */
    int32_t capacity;
    int32_t items;
    int32_t saved_in; /* the search's iteration for which a copy was kept */
    int64_t filled; /* area of the items */
    int64_t roomiest; /* no free rectangle is larger; it may be that none is as large */
    Node *node;
    uint64_t *roomy; /* a bit for each slot: a strip with a free rectangle */
} Layout;

/* Of restricted patterns: the sizes that pieces may be cut off on, along each axis, in ascending order.  In
 * every strip one piece may have another size: it is what is left, and not cut off. */
typedef struct {
    int32_t *size[2];
    int32_t count[2];
} Sizes;

/* One way to put an item in: into the free rectangle of `strip`. */
typedef struct {
    int32_t layout, strip;
    int32_t turned;
    int32_t crosswise; /* first cut the whole free rectangle across the strip's axis */
    double loss;       /* worth of free rectangles lost */
} Insertion;

/* The first strip with a free rectangle in or after `slot`, or NONE. */
static inline int32_t next_roomy(const Layout *layout, int32_t slot) {
    for (int32_t word = slot / SLOTS_IN_A_WORD; word * SLOTS_IN_A_WORD < layout->top; word++) {
        uint64_t bits = layout->roomy[word];
        if (word == slot / SLOTS_IN_A_WORD) bits &= ~(uint64_t)0 << slot % SLOTS_IN_A_WORD;
        if (bits) return word * SLOTS_IN_A_WORD + __builtin_ctzll(bits);
    }
    return NONE;
}

void layout_open(Layout *layout, int32_t bin, int32_t length, int32_t width, int32_t axis);
void layout_free(Layout *layout);
int layout_copy(Layout *to, const Layout *from);
int layout_reserve(Layout *layout, int32_t nodes);

int32_t layout_add_item(Layout *layout, int32_t strip, int32_t item, int32_t turned, int32_t along,
                        int32_t across);
int32_t layout_add_strip(Layout *layout, int32_t parent, int32_t extent);
void layout_insert(Layout *layout, const Insertion *way, int32_t item, int32_t along, int32_t across,
                   int32_t stages);

/* Takes out the subtree of `node`; the items' numbers go to `out`, their count is returned.  `sizes`: NULL
 * unless patterns are restricted. */
int32_t layout_remove(Layout *layout, int32_t node, int32_t *out, const int64_t *area, int shrink,
                      const Sizes *sizes);

double layout_leftover(const Layout *layout, double unit);

/* Whether what is noted of the free rectangles is true of the nodes: for assertions, which the installed
 * kernel leaves out. */
int layout_agrees(const Layout *layout, const Sizes *sizes);

#endif
