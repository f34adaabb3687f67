#include <sectio/print/html.hpp>

namespace sectio::page {

std::string element(const std::string& name, const std::string& attributes,
                    const std::string& content) {
    return "<" + name + (attributes.empty() ? "" : " " + attributes) + ">" + content + "</" + name
           + ">";
}

std::string with_accidentals(std::string text) {
    for (const std::string sign : {"♯", "♭"})
        for (std::size_t at = text.find(sign); at != std::string::npos;) {
            const std::string marked = element("span", "class=\"a\"", sign);
            text.replace(at, sign.size(), marked);
            at = text.find(sign, at + marked.size());
        }
    return text;
}

} // namespace sectio::page
