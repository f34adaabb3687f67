#pragma once
/// @file
/// The line that says how far long work is.

#include <sectio/base/progress.hpp>

#include <chrono>

namespace sectio::cli {

/// Shows on standard error, where that is a terminal, how many per cent are done: not before a
/// second has passed, then twice a second; wiped when all is
/// done, or at the end. Pass it as a library's progress
/// function by std::ref.
class ProgressLine {
  public:
    ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;
    ~ProgressLine();
    void operator()(double done);

    /// From now on every line of this process tells `progress` as well.
    static void tell(Progress progress);

  private:
    void wipe();

    std::chrono::steady_clock::time_point next_;
    bool on_terminal_;
    bool shown_ = false;
};

} // namespace sectio::cli
