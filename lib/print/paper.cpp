#include <sectio/print/messages.hpp>
#include <sectio/print/paper.hpp>

#include <algorithm>
#include <cctype>

namespace sectio {

Paper parse_paper(std::string_view text, const Place& place) {
    std::string name(text);
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (name == "a4")
        return a4_paper;
    if (name == "letter")
        return letter_paper;
    if (name == "card")
        return card_paper;
    throw error(message::unknown_paper, text, place);
}

} // namespace sectio
