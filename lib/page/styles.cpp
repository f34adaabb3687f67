#include <sectio/page/styles.hpp>

namespace sectio::page {

TextStyle Styles::of(Role role) const {
    switch (role) {
    case Role::caution:
        return {9.5 * words, true};
    case Role::source:
        return {8.5 * words, false, true};
    case Role::plain:
        return {10 * words};
    case Role::remark:
    case Role::note:
        break;
    }
    return {8.5 * words};
}

Styles styles(bool large) {
    Styles s;
    if (!large)
        return s;
    s.title.size = 24, s.heading.size = 16, s.label.size = 14, s.value.size = 14;
    s.ruler = 1.65;
    s.following_table = s.stand_reading = s.longer_reading = 14;
    s.stand = {20, 18, 16, 15, 14};
    s.longer = {16, 15, 14};
    s.words = 1.3;
    return s;
}

} // namespace sectio::page
