#include <sectio/score/score_reader.hpp>

namespace sectio::score {

ScoreReader::ScoreReader() = default;

Score ScoreReader::finished(Encoding encoding) && {
    builder_.score.encoding = encoding;
    return std::move(builder_.score);
}

ContextReader* ScoreReader::reader_of(Tag tag) {
    return readers_[static_cast<std::size_t>(context_of(tag))];
}

bool ScoreReader::start(const XmlStart& start, const XmlCursor& cursor) {
    const Tag parent = stack_.back();
    const TagEntry* entry = parent == Tag::other ? nullptr : known_tag(parent, start.name);
    if (entry != nullptr && misplaced(parent, entry->tag))
        entry = nullptr;
    if (parent == Tag::document)
        open_root(start, cursor);
    PageMarks& page = builder_.score.page;
    if (music_next_ && !start.in_entity)
        page.first_music_at = start.offset;
    music_next_ = false;
    stack_.push_back(entry == nullptr ? Tag::other : entry->tag);
    if (entry == nullptr)
        return false;
    if (ContextReader* reader = reader_of(entry->tag))
        reader->open(entry->tag, start, cursor);
    const Tag inner = builder_.score.timewise ? Tag::part : Tag::measure;
    music_next_ = entry->tag == inner && !page.first_music_at;
    return entry->text;
}

/// Music stands in measures of parts (partwise) or in parts of measures (timewise), nowhere else.
bool ScoreReader::misplaced(Tag parent, Tag tag) const {
    const bool timewise = builder_.score.timewise;
    const Tag outer = timewise ? Tag::measure : Tag::part;
    const Tag inner = timewise ? Tag::part : Tag::measure;
    if (parent == Tag::root)
        return tag == inner;
    return parent == outer ? tag != inner : parent == inner && tag == outer;
}

void ScoreReader::end(std::size_t offset, std::string_view text, const XmlCursor& cursor) {
    const Tag tag = stack_.back();
    stack_.pop_back();
    music_next_ = false;
    if (tag == Tag::other)
        return;
    if (ContextReader* reader = reader_of(tag))
        reader->close(tag, offset, text, cursor);
}

void ScoreReader::open_root(const XmlStart& start, const XmlCursor& cursor) {
    if (start.name == "opus")
        throw error(message::score_is_opus, start.name, cursor.place());
    if (start.name != "score-partwise" && start.name != "score-timewise")
        throw error(message::not_a_score, start.name, cursor.place());
    builder_.score.timewise = start.name == "score-timewise";
    builder_.score.version =
        start.attributes.find("version").value_or("1.0"); // the default of the standard's schema
}

Score read_score(const Document& document) {
    try {
        ScoreReader quick;
        if (read_plain_xml(document.bytes, quick))
            return std::move(quick).finished(Encoding::utf8);
    } catch (const Error&) { // read_xml() finds the same error, and its line and column
    }
    ScoreReader reader;
    const Encoding encoding = read_xml(document.bytes, document.source, reader);
    return std::move(reader).finished(encoding);
}

} // namespace sectio::score
