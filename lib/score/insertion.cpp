#include <sectio/base/argument.hpp>
#include <sectio/score/insertion.hpp>
#include <sectio/score/messages.hpp>

#include <algorithm>
#include <cstring>
#include <optional>

namespace sectio::score {

namespace {

/// UTF-16 shows in the first two bytes: a byte order mark, or half of `<`.
Encoding marks_encoding(std::string_view bytes) {
    const std::string_view head = bytes.substr(0, 2);
    if (head == "\xFF\xFE" || head == std::string_view("<\0", 2))
        return Encoding::utf16_little;
    if (head == "\xFE\xFF" || head == std::string_view("\0<", 2))
        return Encoding::utf16_big;
    return Encoding::utf8; // the marks are ASCII, which the others have in common
}

/// std::string_view::find() stops at every `<`; memmem() does not.
std::size_t found(std::string_view bytes, std::string_view mark, std::size_t from) {
    const void* at = memmem(bytes.data() + from, bytes.size() - from, mark.data(), mark.size());
    return at == nullptr ? std::string_view::npos
                         : static_cast<std::size_t>(static_cast<const char*>(at) - bytes.data());
}

/// Where the CDATA section ends that `at` lies in, of those that begin from `from` on; `from` goes
/// to the last one that was looked at. What stands in one is text and no comment (XML 1.0, 2.7).
std::optional<std::size_t> end_of_text(std::string_view bytes, std::size_t& from, std::size_t at,
                                       Encoding encoding) {
    const std::string begin = encoded("<![CDATA[", encoding), end = encoded("]]>", encoding);
    for (std::size_t next; (next = found(bytes, begin, from)) < at;) {
        const std::size_t after = found(bytes, end, next);
        if (after == std::string_view::npos) // so it is none
            break;
        if (after > at)
            return after;
        from = after;
    }
    from = at;
    return std::nullopt;
}

} // namespace

WithoutInsertions without_insertions(std::string bytes, const std::string& source) {
    const Encoding encoding = marks_encoding(bytes);
    const std::string begin = encoded(insertion_begin, encoding),
                      end = encoded(insertion_end, encoding);
    std::size_t at = found(bytes, begin, 0);
    if (at == std::string::npos)
        return {std::move(bytes), 0};
    WithoutInsertions out;
    std::size_t kept = 0, looked_at = 0;
    while (at != std::string::npos) {
        if (const auto text_end = end_of_text(bytes, looked_at, at, encoding)) {
            at = found(bytes, begin, *text_end);
            continue;
        }
        const std::size_t after = found(bytes, end, at + begin.size());
        if (after == std::string::npos)
            throw error(message::insertion_open, insertion_begin, Place{source}, at);
        out.bytes.append(bytes, kept, at - kept);
        kept = looked_at = after + end.size();
        at = found(bytes, begin, kept);
        ++out.count;
    }
    out.bytes.append(bytes, kept);
    return out;
}

std::uint32_t Insertions::text(const std::string& text) {
    const auto [known, added] = known_.try_emplace(text, static_cast<std::uint32_t>(texts_.size()));
    if (added)
        texts_.push_back(
            encoded(std::string(insertion_begin) + text + std::string(insertion_end), encoding_));
    return known->second;
}

void Insertions::add(std::uint64_t offset, std::uint32_t text) {
    check_argument(text < texts_.size(), "a text", "one of those that were given");
    if (places_.empty() || places_.back().offset <= offset) {
        places_.push_back({offset, text});
        return;
    }
    const auto after =
        std::upper_bound(places_.begin(), places_.end(), offset,
                         [](std::uint64_t at, const Place& place) { return at < place.offset; });
    places_.insert(after, {offset, text});
}

void Insertions::write(std::string_view document,
                       const std::function<void(std::string_view)>& sink) const {
    check_function(sink, "what takes a document");
    check_argument(places_.empty() || places_.back().offset <= document.size(), "a document",
                   "the one that the insertions were made for");
    std::size_t done = 0;
    for (const Place& place : places_) {
        sink(document.substr(done, place.offset - done));
        sink(texts_[place.text]);
        done = place.offset;
    }
    sink(document.substr(done));
}

std::string Insertions::applied(std::string_view document) const {
    std::size_t size = document.size();
    for (const Place& place : places_)
        size += texts_[place.text].size();
    std::string out;
    out.reserve(size);
    write(document, [&](std::string_view piece) { out += piece; });
    return out;
}

std::string Insertions::removed(std::string_view document) const {
    std::string out;
    std::size_t at = 0;
    for (const Place& place : places_) {
        const std::size_t kept = place.offset - out.size();
        const std::string& text = texts_[place.text];
        if (at + kept > document.size() || document.substr(at + kept, text.size()) != text)
            return {};
        out += document.substr(at, kept);
        at += kept + text.size();
    }
    return out += document.substr(std::min(at, document.size()));
}

} // namespace sectio::score
