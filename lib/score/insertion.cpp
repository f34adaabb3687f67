#include <sectio/score/insertion.hpp>

#include <algorithm>

namespace sectio::score {

std::uint32_t Insertions::text(const std::string& text) {
    const auto [known, added] = known_.try_emplace(text, static_cast<std::uint32_t>(texts_.size()));
    if (added)
        texts_.push_back(encoded(text, encoding_));
    return known->second;
}

void Insertions::add(std::uint64_t offset, std::uint32_t text) {
    if (places_.empty() || places_.back().offset <= offset) {
        places_.push_back({offset, text});
        return;
    }
    const auto behind =
        std::upper_bound(places_.begin(), places_.end(), offset,
                         [](std::uint64_t at, const Place& place) { return at < place.offset; });
    places_.insert(behind, {offset, text});
}

void Insertions::write(std::string_view document,
                       const std::function<void(std::string_view)>& sink) const {
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
