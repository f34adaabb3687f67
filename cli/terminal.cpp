#include "terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>

namespace sectio::cli {

std::size_t line_columns(std::size_t usual, std::size_t most) {
    constexpr std::size_t fewest = 40;
    winsize size{};
    if (isatty(STDOUT_FILENO) == 0 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0
        || size.ws_col == 0)
        return usual;
    return std::clamp<std::size_t>(size.ws_col, fewest, most);
}

} // namespace sectio::cli
