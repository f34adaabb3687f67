#pragma once
/// @file
/// The one exception of the library, and the list of all it can say.

#include <fmt/format.h>

#include <cstddef>
#include <exception>
#include <string>
#include <string_view>

namespace sectio {

/// Why a request was not answered. The command line maps these to exit codes 2, 4, 3 and 3.
enum class ErrorCode {
    unusable,   ///< the request or the input has no answer as it stands
    undecided,  ///< an answer exists, but not within the limits
    unreadable, ///< a file could not be read
    unwritable, ///< a file could not be written
};

/// Where in the input an error stands. Lines and columns count from 1, columns in characters (code
/// points); 0 means "not known".
struct Place {
    std::string source; ///< file name, or the argument that held the text
    std::size_t line = 0;
    std::size_t column = 0;

    /// "file:line:column", as much of it as is known.
    std::string text() const;
};

/// One message as listed: `text` and `advice` may hold fmt placeholders {0}, {1}, …
/// Each room lists its own in messages.def, as constants of the namespace `message`.
struct MessageEntry {
    std::string_view name;
    ErrorCode code;
    std::string_view text;
    std::string_view advice;
};

/// Which message an error carries. Compared by name, since a plug-in that hides its symbols has
/// entries of its own beside those of a shared library.
class Message {
  public:
    constexpr Message(const MessageEntry& entry) : entry_(&entry) {}

    constexpr const MessageEntry* operator->() const { return entry_; }
    friend bool operator==(Message a, Message b) { return a->name == b->name; }
    friend bool operator<(Message a, Message b) { return a->name < b->name; }

  private:
    const MessageEntry* entry_;
};

/// The exception of the library: what was wrong, the piece of input, where it stands, what to write
/// instead. `what()` joins them in one line, in which nothing commands a terminal.
class Error : public std::exception {
  public:
    Error(Message id, std::string message, std::string advice, std::string piece, Place place);

    Message id() const noexcept { return id_; }
    ErrorCode code() const noexcept { return id_->code; }
    const std::string& message() const noexcept { return message_; }
    const std::string& advice() const noexcept { return advice_; }
    const std::string& piece() const noexcept { return piece_; }
    const Place& place() const noexcept { return place_; }
    const char* what() const noexcept override { return what_.c_str(); }

    /// The same error, said of another place: an expression inside a file learns its file this way.
    Error at(Place place) const;

  private:
    Message id_;
    std::string message_, advice_, piece_;
    Place place_;
    std::string what_;
};

/// Makes the error `id`; `args` fill the placeholders of its text and advice.
template <typename... Args>
Error error(Message id, std::string_view piece, Place place, const Args&... args) {
    return Error(id, fmt::format(fmt::runtime(id->text), args...),
                 fmt::format(fmt::runtime(id->advice), args...), std::string(piece),
                 std::move(place));
}

} // namespace sectio
