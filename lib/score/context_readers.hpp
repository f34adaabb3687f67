#pragma once
/// @file
/// Private to lib/score: one reader for each context of a score: its header, the attributes of a
/// measure, its notes, parts and measures, and what is said about playing.
/// ScoreReader hands every known element to the reader of its context (tags.hpp).

#include <sectio/score/score_builder.hpp>
#include <sectio/score/tags.hpp>
#include <sectio/score/xml.hpp>

namespace sectio::score {

class ContextReader {
  public:
    explicit ContextReader(ScoreBuilder& builder) : builder_(builder) {}
    virtual ~ContextReader() = default;
    ContextReader(const ContextReader&) = delete;
    ContextReader& operator=(const ContextReader&) = delete;

    virtual void open(Tag tag, const XmlStart& start, const XmlCursor& cursor) = 0;
    virtual void close(Tag tag, std::size_t offset, std::string_view text,
                       const XmlCursor& cursor) = 0;

  protected:
    ScoreBuilder& builder_;
};

/// Titles, creators, texts on the page, its measures, the list of parts.
class HeaderReader : public ContextReader {
  public:
    using ContextReader::ContextReader;
    void open(Tag tag, const XmlStart& start, const XmlCursor& cursor) override;
    void close(Tag tag, std::size_t offset, std::string_view text,
               const XmlCursor& cursor) override;

  private:
    void open_credit_words(const XmlStart& start);
    void open_score_part(const XmlStart& start);
    void keep_creator(std::string name);
    void keep_title(std::string& place, std::string_view text);
    void keep_instrument(std::string_view id);
    void keep_program(std::string_view text, const XmlCursor& cursor);
    void keep_channel(bool percussion);

    std::string creator_; ///< its type
    bool first_page_ = false;
    bool has_channel_ = false; ///< the present part's, which its first instrument says
};

/// Divisions, keys, transpositions.
class AttributesReader : public ContextReader {
  public:
    using ContextReader::ContextReader;
    void open(Tag tag, const XmlStart& start, const XmlCursor& cursor) override;
    void close(Tag tag, std::size_t offset, std::string_view text,
               const XmlCursor& cursor) override;

  private:
    void close_key_step(Tag tag, std::string_view text, const XmlCursor& cursor);
    void close_transposition(Tag tag, std::string_view text, const XmlCursor& cursor);

    Key key_;
    Transposition transposition_;
    std::optional<Sign> glyph_; ///< of the present key's accidental
    int staff_ = 0;             ///< of the present key or transposition
};

/// Notes.
class NoteReader : public ContextReader {
  public:
    using ContextReader::ContextReader;
    void open(Tag tag, const XmlStart& start, const XmlCursor& cursor) override;
    void close(Tag tag, std::size_t offset, std::string_view text,
               const XmlCursor& cursor) override;

  private:
    void open_note(const XmlStart& start);
    void open_tie(const XmlStart& start);
    void open_lyric(const XmlStart& start);
    void close_pitch(Tag tag, std::string_view text, const XmlCursor& cursor);
    void close_note(std::size_t offset, const XmlCursor& cursor);
    void keep_note(std::size_t offset, const XmlCursor& cursor);
    void tie(Note& note);

    struct Pending {
        Note note;
        Spelling spelling;
        bool pitched = false, rest = false, step = false, octave = false;
        std::optional<Sign> glyph; ///< of its accidental
        std::optional<std::uint64_t> lyric_at;
        std::uint64_t at = 0;
    } now_;
};

/// Parts, measures, and steps in time between notes.
class MeasureReader : public ContextReader {
  public:
    using ContextReader::ContextReader;
    void open(Tag tag, const XmlStart& start, const XmlCursor& cursor) override;
    void close(Tag tag, std::size_t offset, std::string_view text,
               const XmlCursor& cursor) override;

  private:
    void open_part(const XmlStart& start, const XmlCursor& cursor);
    void open_measure(const XmlStart& start);
    void begin_measure_of_part();
    void end_measure_of_part();
};

/// Repeats, tempo, loudness, programs.
class PlayingReader : public ContextReader {
  public:
    using ContextReader::ContextReader;
    void open(Tag tag, const XmlStart& start, const XmlCursor& cursor) override;
    void close(Tag tag, std::size_t offset, std::string_view text,
               const XmlCursor& cursor) override;

  private:
    void open_repeat(const XmlStart& start);
    void open_ending(const XmlStart& start);
    void open_sound(const XmlStart& start);
    void change_program(int program);
    void close_metronome();
    PlayingMark& mark(std::optional<QuarterNotes> tempo, std::optional<QuarterNotes> loudness);
    QuarterNotes offset(std::string_view divisions);

    struct Metronome {
        std::optional<QuarterNotes> unit, per_minute;
        int dots = 0;
    } metronome_;
    std::optional<QuarterNotes> marked_tempo_; ///< of a metronome mark, until the direction ends
    bool marked_ = false;                      ///< the present <sound> has made a mark
    std::uint16_t passes_ = 0;                 ///< of the present <sound>
    bool of_first_ = false; ///< its <midi-instrument> is the one that plays the part
    QuarterNotes offset_;   ///< of what the present direction says for playing
    bool sounds_ = false;   ///< so does its <offset>
    bool sounded_ = false;  ///< the direction says its tempo for playing too
};

} // namespace sectio::score
