#pragma once
/// @file
/// Private to lib/score: builds a Score from the events of its XML: hands each element to the
/// reader of its context. Used by read_score() alone.

#include <sectio/score/context_readers.hpp>

namespace sectio::score {

class ScoreReader : public XmlHandler {
  public:
    ScoreReader();
    bool start(const XmlStart& start, const XmlCursor& cursor) override;
    void end(std::size_t offset, std::string_view text, const XmlCursor& cursor) override;
    Score finished(Encoding encoding) &&;

  private:
    bool misplaced(Tag parent, Tag tag) const;
    void open_root(const XmlStart& start, const XmlCursor& cursor);
    /// The reader that knows what to do with `tag`; null for a tag that only holds others.
    ContextReader* reader_of(Tag tag);

    ScoreBuilder builder_;
    HeaderReader header_{builder_};
    AttributesReader attributes_{builder_};
    NoteReader note_{builder_};
    MeasureReader measures_{builder_};
    PlayingReader playing_{builder_};
    std::array<ContextReader*, 6> readers_{nullptr, &header_,   &attributes_,
                                           &note_,  &measures_, &playing_}; ///< by Context
    std::vector<Tag> stack_{Tag::document};
    bool music_next_ = false; ///< the next tag is the first after the first measure's
};

} // namespace sectio::score
