#pragma once
/// @file
/// Loops that are compiled for several processors.

// The one that runs them chooses at the start of the program. Sanitizers are not ready that early.
#if defined(__x86_64__) && defined(__ELF__) && !defined(__SANITIZE_ADDRESS__)                      \
    && !defined(__SANITIZE_THREAD__) && !defined(__clang__)
#define SECTIO_FOR_EACH_PROCESSOR                                                                  \
    __attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default")))
#else
#define SECTIO_FOR_EACH_PROCESSOR
#endif
