#include <sectio/base/error.hpp>
#include <sectio/base/visible.hpp>

namespace sectio {

namespace {

/// A piece longer than this is cut in the one-line text; piece() keeps it whole.
constexpr std::size_t shown_piece_bytes = 60;

/// `piece` cut at a character's end, never inside a UTF-8 sequence.
std::string shortened(const std::string& piece) {
    if (piece.size() <= shown_piece_bytes)
        return piece;
    std::size_t end = shown_piece_bytes;
    while (end > 0 && (static_cast<unsigned char>(piece[end]) & 0xC0) == 0x80)
        --end;
    return piece.substr(0, end) + "…";
}

} // namespace

std::string Place::text() const {
    if (line == 0 && column == 0)
        return source;
    const std::string head = source.empty() ? "" : source + ":";
    return line == 0 ? fmt::format("{}{}", head, column)
                     : fmt::format("{}{}:{}", head, line, column);
}

Error::Error(Message id, std::string message, std::string advice, std::string piece, Place place)
    : id_(id), message_(std::move(message)), advice_(std::move(advice)), piece_(std::move(piece)),
      place_(std::move(place)) {
    const std::string where = place_.text();
    if (!where.empty())
        what_ = where + ": ";
    what_ += message_;
    if (!piece_.empty())
        what_ += ": `" + shortened(piece_) + "`";
    if (!advice_.empty())
        what_ += "; " + advice_;
    what_ = visible(what_); // all parts may hold text that comes from outside
}

Error Error::at(Place place) const {
    return Error(id_, message_, advice_, piece_, std::move(place));
}

} // namespace sectio
