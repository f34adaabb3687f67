#include "progress_line.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <utility>

namespace sectio::cli {

using namespace std::chrono_literals;

ProgressLine::ProgressLine()
    : next_(std::chrono::steady_clock::now() + 1s), on_terminal_(isatty(STDERR_FILENO) == 1) {}

ProgressLine::~ProgressLine() {
    wipe();
}

void ProgressLine::wipe() {
    if (std::exchange(shown_, false))
        std::fputs("\r      \r", stderr);
}

namespace {

Progress& told() {
    static Progress progress;
    return progress;
}

} // namespace

void ProgressLine::tell(Progress progress) {
    told() = std::move(progress);
}

void ProgressLine::operator()(double done) {
    if (told())
        told()(done);
    if (done >= 1)
        return wipe();
    const auto now = std::chrono::steady_clock::now();
    if (!on_terminal_ || now < next_)
        return;
    next_ = now + 500ms;
    shown_ = true;
    fmt::print(stderr, "\r{:3.0f} %", 100 * done);
    std::fflush(stderr);
}

} // namespace sectio::cli
