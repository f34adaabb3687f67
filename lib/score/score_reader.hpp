#pragma once
/// @file
/// Builds a Score from the events of its XML. Used by read_score() alone.

#include <sectio/score/score.hpp>
#include <sectio/score/tags.hpp>

namespace sectio::score {

/// Different values in the order of their first appearance, each known by its place.
template <typename T>
class Interned {
  public:
    explicit Interned(std::vector<T>& values, std::string_view what)
        : values_(values), what_(what) {}
    std::uint16_t operator()(const T& value);

  private:
    std::vector<T>& values_;
    std::map<T, std::uint16_t> places_;
    std::string_view what_;
};

/// What holds for one part from one measure to the next.
struct PartState {
    Beats divisions{1, 1};
    Beats measure_start, cursor, measure_end;
    std::map<int, std::uint16_t> keys, transpositions;       ///< by staff; 0 is every staff
    std::map<std::pair<char, int>, std::uint16_t> open_ties; ///< spelling by step and octave
    std::uint64_t head_at = 0;    ///< the last note that was not a chord's further note
    std::uint32_t chord_size = 0; ///< notes of the present chord so far
    bool has_head = false, head_in_entity = false;
    Beats head_onset;
    std::optional<std::size_t> last_note; ///< in Score::notes
};

class ScoreReader : public XmlHandler {
  public:
    ScoreReader();
    bool start(const XmlStart& start, const XmlCursor& cursor) override;
    void end(std::size_t offset, std::string_view text, const XmlCursor& cursor) override;
    Score finished(Encoding encoding) &&;

  private:
    bool misplaced(Tag parent, Tag tag) const;
    void open_root(const XmlStart& start, const XmlCursor& cursor);
    void open(Tag tag, const XmlStart& start, const XmlCursor& cursor);
    void open_in_header(Tag tag, const XmlStart& start);
    void open_in_note(Tag tag, const XmlStart& start);
    void open_part(const XmlStart& start, const XmlCursor& cursor);
    void open_measure(const XmlStart& start);
    void begin_measure_of_part();
    void open_note(const XmlStart& start);
    void close(Tag tag, std::size_t offset, std::string_view text, const XmlCursor& cursor);
    void close_in_header(Tag tag, std::string_view text);
    void close_in_attributes(Tag tag, std::string_view text, const XmlCursor& cursor);
    void close_in_note(Tag tag, std::string_view text, const XmlCursor& cursor);
    void close_measure_of_part();
    void close_note(std::size_t offset, const XmlCursor& cursor);
    void keep_note(std::size_t offset, const XmlCursor& cursor);
    void tie(Note& note);
    void move(Beats by);
    Sign sign(std::string_view text);
    void keep_creator(std::string name);
    void look_for_makam(std::string_view text);

    Score score_;
    Interned<Spelling> spellings_;
    Interned<Key> keys_;
    Interned<Transposition> transpositions_;
    Interned<std::string> voices_;
    std::vector<Tag> stack_{Tag::document};
    std::map<std::string, std::size_t, std::less<>> parts_;
    std::vector<PartState> states_;
    std::size_t part_ = 0;

    // The element being read.
    std::string creator_; ///< its type
    Key key_;
    Transposition transposition_;
    int staff_of_attribute_ = 0;
    struct Pending {
        Note note;
        Spelling spelling;
        bool pitched = false, rest = false, step = false, octave = false;
        std::optional<std::uint64_t> lyric_at;
        std::uint64_t at = 0;
    } now_;
    bool first_page_ = false;
    bool music_next_ = false; ///< the next tag is the first after the first measure's
};

} // namespace sectio::score
