#pragma once
/// @file
/// Text put into a document without touching one of its bytes, and known again afterwards.

#include <sectio/score/xml.hpp>

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::score {

/// What stands around each text that is put in. Comments may stand anywhere in a score's music and
/// header and mean nothing to any reader of XML; processing instructions would do for most, but
/// some readers take them at the head of a document only.
inline constexpr std::string_view insertion_begin = "<!--sectio-->",
                                  insertion_end = "<!--/sectio-->";

/// A document without the texts that were put in earlier.
struct WithoutInsertions {
    std::string bytes;
    std::size_t count = 0; ///< of texts taken out
};

/// Takes out all between insertion_begin and insertion_end, in the document's own encoding;
/// `source` names it in errors. @throws Error insertion_open
WithoutInsertions without_insertions(std::string bytes, const std::string& source);

/// Texts and the bytes before which they go, kept in rising order. Equal texts are kept once.
class Insertions {
  public:
    explicit Insertions(Encoding encoding = Encoding::utf8) : encoding_(encoding) {}

    /// A number by which `text` (UTF-8), between its marks, is put in as often as wanted.
    std::uint32_t text(const std::string& text);

    /// Puts a text before the byte `offset`, after what was put there earlier. Quick where offsets
    /// do not fall from one call to the next.
    void add(std::uint64_t offset, std::uint32_t text);
    void add(std::uint64_t offset, const std::string& text) { add(offset, this->text(text)); }

    std::size_t count() const { return places_.size(); }

    /// Hands the document with the insertions to `sink`, piece by piece.
    void write(std::string_view document, const std::function<void(std::string_view)>& sink) const;
    /// The document with the insertions.
    std::string applied(std::string_view document) const;
    /// Takes the insertions out again; empty where `document` does not have them where they belong.
    std::string removed(std::string_view document) const;

  private:
    struct Place {
        std::uint64_t offset;
        std::uint32_t text;
    };
    Encoding encoding_;
    std::deque<Place> places_;
    std::vector<std::string> texts_; ///< in the document's encoding
    std::map<std::string, std::uint32_t, std::less<>> known_;
};

} // namespace sectio::score
