#pragma once
/// @file
/// Private to lib/scale: numbers, texts and intervals as bytes, for the catalogue's index.

#include <sectio/interval/interval.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// What damaged bytes make of their reader.
struct Damaged {};

class ByteWriter {
  public:
    /// Seven bits a byte, the least significant first, all but the last marked.
    void number(std::uint64_t n);
    void text(std::string_view text);
    void interval(const Interval& interval);

    /// The same of a value that may be absent, and of lists; `put` writes one.
    template <typename T, typename Put>
    void optional(const std::optional<T>& value, Put put) {
        number(value ? 1 : 0);
        if (value)
            put(*value);
    }
    template <typename T, typename Put>
    void list(const std::vector<T>& items, Put put) {
        number(items.size());
        for (const T& item : items)
            put(item);
    }

    std::string take() { return std::move(bytes_); }

  private:
    void integer(const Integer& n);

    std::string bytes_;
};

/// Reads what a ByteWriter wrote. Everything throws Damaged where the bytes do not go on so.
class ByteReader {
  public:
    explicit ByteReader(std::string_view bytes) : left_(bytes) {}

    bool at_end() const { return left_.empty(); }
    std::string_view left() const { return left_; }
    std::uint64_t number();
    /// A number below `bound`.
    std::size_t below(std::size_t bound);
    /// A view of the bytes given.
    std::string_view text();
    std::string string() { return std::string(text()); }
    Interval interval();

    template <typename Get>
    auto optional(Get get) -> std::optional<decltype(get())> {
        return below(2) ? std::optional(get()) : std::nullopt;
    }
    template <typename Get>
    auto list(Get get) -> std::vector<decltype(get())> {
        std::vector<decltype(get())> items;
        const std::size_t count = below(left_.size() + 1); // each takes a byte at least
        for (std::size_t i = 0; i < count; ++i)
            items.push_back(get());
        return items;
    }

  private:
    std::string_view take(std::uint64_t count);
    Integer integer();

    std::string_view left_;
};

} // namespace sectio
