#pragma once
/// @file
/// Private to lib/interval: what MPFR keeps for a thread.

#include <mpfr.h>

namespace sectio {

/// MPFR keeps constants such as log 2 for each thread, and lets them go only when it is told to.
inline void let_constants_go_with_the_thread() {
    struct Release {
        ~Release() { mpfr_free_cache2(MPFR_FREE_LOCAL_CACHE); }
    };
    thread_local Release release;
}

} // namespace sectio
