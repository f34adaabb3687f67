#include <sectio/base/command_files.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/instrument/load_instrument.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/source/file_kind.hpp>
#include <sectio/source/messages.hpp>
#include <sectio/source/source.hpp>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>

namespace sectio::source {

namespace {

Recording recording_in(const std::filesystem::path& file) {
    const measure::SoundFile sound(file);
    return {sound.rate(), sound.channels(), sound.promised_frames()};
}

Content text_content(std::string bytes, const std::string& name, const Catalogue& catalogue) {
    check_readable(bytes, name);
    const bool wide = bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF");
    if (!wide && bytes.find('\0') != bytes.npos)
        throw error(message::not_a_text, "", {name});
    const std::string text = plain_text(std::move(bytes), name);
    if (text.size() <= limits::scale_file_bytes && looks_like_instrument_file(text))
        return read_instrument_file(text, name);
    return read_pitches(text, name, catalogue.names());
}

/// What `bytes` of a kind other than a recording hold.
Content content_of(FileKind kind, std::string bytes, const std::string& name,
                   const Catalogue& catalogue) {
    switch (kind) {
    case FileKind::score:
        return score::document_of(std::move(bytes), name);
    case FileKind::midi:
        return midi::read_file(bytes, name);
    case FileKind::messages:
        return Messages{};
    default:
        return text_content(std::move(bytes), name, catalogue);
    }
}

std::size_t most_bytes(FileKind kind) {
    return kind == FileKind::score  ? limits::score_bytes
           : kind == FileKind::midi ? limits::midi_file_bytes
                                    : limits::table_bytes;
}

Content file_content(const std::string& name, const Catalogue& catalogue) {
    const FileKind kind = file_kind(head_of(name), name);
    if (kind == FileKind::recording)
        return recording_in(name);
    if (kind == FileKind::messages)
        return Messages{};
    return content_of(kind, read_whole(name, most_bytes(kind)), name, catalogue);
}

Content stream_content(std::istream& input, const Catalogue& catalogue) {
    Stream stream = take(input);
    if (stream.kind == FileKind::recording)
        return recording_in(measure::standard_input);
    return content_of(stream.kind, std::move(stream.bytes), "standard input", catalogue);
}

bool is_folder(const std::string& text) {
    std::error_code ignored;
    return text.find_first_not_of("0123456789/:,;") != text.npos && may_read(text)
           && std::filesystem::is_directory(text, ignored);
}

/// A catalogue entry or a list; an ending that only files have says that one is missing.
Content named_content(const std::string& text, const Catalogue& catalogue, std::istream& input) {
    LoadedScale loaded = load_scale_argument(text, {catalogue, input});
    if (auto* scale = std::get_if<Scale>(&loaded))
        return std::move(*scale);
    return std::move(std::get<PitchList>(loaded));
}

} // namespace

Stream take(std::istream& input) {
    const std::string name = "standard input";
    if (&input == &std::cin)
        reads_standard_input();
    check_unread(input, name);
    std::string bytes(head_bytes, '\0');
    input.read(bytes.data(), std::ssize(bytes));
    bytes.resize(static_cast<std::size_t>(input.gcount()));
    if (&input == &std::cin && std::ferror(stdin)) // as read_whole() sees it
        throw error(message::cannot_read, "", Place{name}, std::strerror(errno));
    const FileKind kind = file_kind(bytes, "");
    if (kind == FileKind::recording) {
        measure::keep_standard_input(bytes, input);
        return {kind, ""};
    }
    if (!input.eof())
        bytes += read_whole(input, name, most_bytes(kind));
    if (bytes.size() > most_bytes(kind))
        throw error(message::file_too_large, "", Place{name}, most_bytes(kind));
    return {kind, std::move(bytes)};
}

Source open(const std::string& text, const Catalogue& catalogue, std::istream& input) {
    if (text == "-") {
        Source source{stream_content(input, catalogue), text, {}};
        if (std::holds_alternative<Recording>(source.content))
            source.file = measure::standard_input;
        return source;
    }
    if (is_file(text) && !catalogue.find(text))
        return {file_content(text, catalogue), text, text};
    if (is_folder(text) && !catalogue.find(text))
        return {Folder{}, text, {}};
    return {named_content(text, catalogue, input), text, {}};
}

Source open(const std::string& text) {
    return open(text, Catalogue::installed(), std::cin);
}

std::string_view kind_of(const Source& source) {
    constexpr std::array<std::string_view, std::variant_size_v<Content>> kinds{
        "a scale",     "a list of pitches",         "an instrument", "a score",
        "a MIDI file", "a file of tuning messages", "a recording",   "a folder"};
    return kinds[source.content.index()];
}

LoadedScale scale_in(const Source& source, const Catalogue& catalogue) {
    if (const auto* scale = std::get_if<Scale>(&source.content))
        return *scale;
    if (const auto* list = std::get_if<PitchList>(&source.content))
        return *list;
    if (const auto* instrument = std::get_if<Instrument>(&source.content))
        return to_list(played_scale(*instrument, catalogue));
    throw error(message::not_a_scale_but, source.name, {"SCALE"}, kind_of(source));
}

} // namespace sectio::source
