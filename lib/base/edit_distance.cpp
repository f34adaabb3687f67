#include <sectio/base/edit_distance.hpp>

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace sectio {

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before(b.size() + 1), row(b.size() + 1), next(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        next[0] = i + 1;
        for (std::size_t j = 0; j < b.size(); ++j) {
            next[j + 1] = std::min({row[j] + (a[i] == b[j] ? 0 : 1), next[j] + 1, row[j + 1] + 1});
            if (i > 0 && j > 0 && a[i] == b[j - 1] && a[i - 1] == b[j])
                next[j + 1] = std::min(next[j + 1], before[j - 1] + 1);
        }
        std::swap(before, row), std::swap(row, next);
    }
    return row.back();
}

} // namespace sectio
