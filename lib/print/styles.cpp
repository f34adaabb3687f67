#include <sectio/print/styles.hpp>

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
    s.least_title = 18;
    s.ruler = s.words = 1.65; // the smallest of both are 8.5 points
    s.following_table = s.stand_reading = s.longer_reading = s.comfortable = s.least = 14;
    s.stand = {20, 18, 16, 15, 14};
    s.longer = {16, 15, 14};
    s.tight.clear();
    s.drawing = {1.75, s.least}; // the smallest label of those made for it has 8 points
    return s;
}

} // namespace sectio::page
