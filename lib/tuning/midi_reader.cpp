// Reading Standard MIDI Files. Every count is checked against the bytes that are there before
// anything is taken, so that a damaged file costs no more than its size.

#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/midi_file.hpp>

#include <optional>

namespace sectio::midi {

namespace {

std::string hex(unsigned byte) {
    return fmt::format("{:02X}", byte);
}

/// Bytes after the status byte of a channel message.
std::size_t data_length(std::uint8_t status) {
    const auto kind = status & 0xF0;
    return kind == status::program || kind == status::channel_pressure ? 1 : 2;
}

/// Bytes that a meta event of this type must have; nothing where any number will do.
std::optional<std::size_t> meta_length(std::uint8_t type) {
    switch (type) {
    case meta::channel_prefix:
        return 1;
    case meta::end_of_track:
        return 0;
    case meta::tempo:
        return 3;
    case meta::smpte_offset:
        return 5;
    case meta::time_signature:
        return 4;
    case meta::key_signature:
        return 2;
    default:
        return std::nullopt;
    }
}

/// A part of the file, read from its start to its end. Places are counted in the whole file.
class Bytes {
  public:
    Bytes(std::string_view file, std::size_t begin, std::size_t end, const std::string& name)
        : file_(file), next_(begin), end_(end), name_(name) {}

    std::size_t position() const { return next_; }
    std::size_t left() const { return end_ - next_; }
    std::uint8_t peek() const { return static_cast<std::uint8_t>(file_[next_]); }
    std::uint8_t byte() { return static_cast<std::uint8_t>(file_[next_++]); }
    std::string_view take(std::size_t count) {
        next_ += count;
        return file_.substr(next_ - count, count);
    }
    /// `count` bytes, most significant first.
    std::uint32_t number(int count) {
        std::uint32_t value = 0;
        for (; count > 0; --count)
            value = value << 8 | byte();
        return value;
    }

    /// @throws Error midi_event_cut unless `count` bytes of the event at `event` are left
    void need(std::size_t count, std::size_t event) const {
        if (left() < count)
            throw failure(message::midi_event_cut, event);
    }

    /// A number in groups of seven bits, the most significant first.
    std::uint32_t variable(std::size_t event) {
        const std::size_t begin = next_;
        std::uint32_t value = 0;
        for (int count = 0; count < 4; ++count) {
            need(1, event);
            const std::uint8_t group = byte();
            value = value << 7 | (group & 0x7FU);
            if (group < 0x80)
                return value;
        }
        throw failure(message::midi_long_number, begin);
    }

    template <typename... Args>
    Error failure(Message id, const Args&... args) const {
        return error(id, "", Place{name_}, args...);
    }

  private:
    std::string_view file_;
    std::size_t next_, end_;
    const std::string& name_;
};

/// The events of one track chunk.
class TrackReader {
  public:
    explicit TrackReader(Bytes bytes) : in_(bytes), begin_(bytes.position()) {}

    Track read() {
        track_.events.reserve(in_.left() / 4); // most events are a time and three bytes, or fewer
        while (in_.left() > 0) {
            start_ = in_.position();
            track_.end += in_.variable(start_);
            in_.need(1, start_);
            if (read_event())
                return finished();
        }
        throw in_.failure(message::midi_no_end, begin_);
    }

  private:
    /// Says whether it was the end of track.
    bool read_event() {
        const std::uint8_t first = in_.peek();
        if (first < 0xF0) {
            read_channel_message(first);
            return false;
        }
        running_ = 0; // these end a running status
        in_.byte();
        if (first == status::meta)
            return read_meta();
        if (first != status::system_exclusive && first != status::escape)
            throw in_.failure(message::midi_unknown_status, in_.position() - 1, hex(first));
        add(first, 0, counted());
        return false;
    }

    void read_channel_message(std::uint8_t first) {
        if (first >= 0x80)
            running_ = in_.byte();
        else if (running_ == 0)
            throw in_.failure(message::midi_no_status, start_);
        const std::size_t length = data_length(running_);
        in_.need(length, start_);
        const std::string_view data = in_.take(length);
        for (std::size_t i = 0; i < length; ++i)
            if (const auto byte = static_cast<unsigned char>(data[i]); byte > 0x7F)
                throw in_.failure(message::midi_data_byte, in_.position() - length + i, hex(byte));
        add(running_, 0, data);
    }

    bool read_meta() {
        in_.need(1, start_);
        const std::uint8_t type = in_.byte();
        const std::string_view data = counted();
        if (const auto length = meta_length(type); length && data.size() != *length)
            throw in_.failure(message::midi_meta_length, start_, "FF " + hex(type), data.size(),
                              *length);
        if (type == meta::end_of_track)
            return true;
        add(status::meta, type, data);
        return false;
    }

    std::string_view counted() {
        const std::size_t length = in_.variable(start_);
        in_.need(length, start_);
        return in_.take(length);
    }

    void add(std::uint8_t status, std::uint8_t type, std::string_view data) {
        track_.events.push_back({track_.end, status, type, std::string(data)});
    }

    Track finished() {
        if (in_.left() > 0)
            throw in_.failure(message::midi_after_end, start_);
        if (track_.events.capacity() > 2 * track_.events.size())
            track_.events.shrink_to_fit();
        return std::move(track_);
    }

    Bytes in_;
    std::size_t begin_, start_ = 0;
    std::uint8_t running_ = 0; ///< 0 where none runs
    Track track_;
};

TimeBase time_base_of(Bytes& in) {
    const std::uint32_t word = in.number(2);
    if (word == 0)
        throw in.failure(message::midi_header, "no ticks to the quarter note");
    if (word < 0x8000)
        return {static_cast<int>(word), 0};
    const int frames = 256 - static_cast<int>(word >> 8), ticks = static_cast<int>(word & 0xFF);
    if ((frames != 24 && frames != 25 && frames != 29 && frames != 30) || ticks == 0)
        throw in.failure(message::midi_header, fmt::format("a time base of {} frames", frames));
    return {ticks, frames};
}

/// The whole file, chunk by chunk.
class FileReader {
  public:
    FileReader(std::string_view bytes, const std::string& name)
        : bytes_(bytes), name_(name), in_(bytes, 0, bytes.size(), name) {}

    File read() {
        if (bytes_.empty())
            throw in_.failure(message::midi_empty);
        if (!bytes_.starts_with("MThd"))
            throw in_.failure(message::midi_no_header);
        const std::size_t announced = read_header();
        while (in_.left() > 0)
            read_chunk();
        if (file_.tracks.size() != announced)
            throw in_.failure(message::midi_track_count, announced, file_.tracks.size());
        return std::move(file_);
    }

  private:
    struct Chunk {
        std::string_view kind;
        Bytes content;
    };

    Chunk next_chunk() {
        const std::size_t begin = in_.position();
        if (in_.left() < 8)
            throw in_.failure(message::midi_not_a_chunk, begin, in_.left());
        const std::string_view kind = in_.take(4);
        const std::size_t length = in_.number(4);
        if (in_.left() < length)
            throw in_.failure(message::midi_chunk_cut, begin);
        const std::size_t content = in_.position();
        in_.take(length);
        return {kind, Bytes(bytes_, content, content + length, name_)};
    }

    /// Reads the header and says how many tracks it announces. A longer header is allowed: "more
    /// parameters may be added in the future" (Standard MIDI Files 1.0, header chunks).
    std::size_t read_header() {
        Bytes header = next_chunk().content;
        if (header.left() < 6)
            throw header.failure(message::midi_header, "it has fewer than six bytes");
        file_.format = static_cast<int>(header.number(2));
        if (file_.format > 2)
            throw header.failure(message::midi_header, fmt::format("format {}", file_.format));
        const std::size_t announced = header.number(2);
        if (file_.format == 0 && announced != 1)
            throw header.failure(message::midi_too_many_tracks, 0, announced);
        file_.time_base = time_base_of(header);
        return announced;
    }

    void read_chunk() {
        const Chunk chunk = next_chunk();
        if (chunk.kind == "MTrk") {
            file_.tracks.push_back(TrackReader(chunk.content).read());
            return;
        }
        Bytes content = chunk.content;
        file_.others.push_back(
            {std::string(chunk.kind), std::string(content.take(content.left()))});
    }

    std::string_view bytes_;
    const std::string& name_;
    Bytes in_;
    File file_;
};

} // namespace

File read_file(std::string_view bytes, const std::string& name) {
    return FileReader(bytes, name).read();
}

File read_file(const std::filesystem::path& file) {
    return read_file(read_whole(file, limits::midi_file_bytes), file.string());
}

} // namespace sectio::midi
