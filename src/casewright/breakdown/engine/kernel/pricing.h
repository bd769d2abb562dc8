/* Worths of guillotine patterns: what the column generation asks the kernel (see pricing.c, assemble.c). */
#ifndef CASEWRIGHT_PRICING_H
#define CASEWRIGHT_PRICING_H

#include <stdint.h>

#ifdef _WIN32
#define KERNEL_API __declspec(dllexport)
#else
#define KERNEL_API __attribute__((visibility("default")))
#endif

typedef struct {
    int32_t length, width, may_turn, count;
    float worth; /* a whole number */
} PricedItem;

#endif
