/* Which sources this library was compiled from, so that an older one is never called. */
#include "pricing.h"

#ifndef KERNEL_SOURCES
#define KERNEL_SOURCES 0u
#endif

KERNEL_API uint32_t kernel_sources(void) { return KERNEL_SOURCES; }
