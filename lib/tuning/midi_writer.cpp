// Writing Standard MIDI Files, and making their events.

#include <sectio/base/argument.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/midi_file.hpp>

namespace sectio::midi {

namespace {

char byte_of(int value) {
    return static_cast<char>(static_cast<unsigned char>(value));
}

Event channel_event(Ticks time, std::uint8_t kind, int channel, std::initializer_list<int> data) {
    constexpr int most_channel = 0x0F, most_data = 0x7F;
    check_argument(channel >= 0 && channel <= most_channel, "a MIDI channel", "from 0 to 15");
    Event event{time, static_cast<std::uint8_t>(kind | channel), 0, {}};
    for (const int value : data) {
        check_argument(value >= 0 && value <= most_data, "a number in a MIDI event",
                       "from 0 to 127");
        event.data += byte_of(value);
    }
    return event;
}

/// `count` bytes, most significant first.
void put_number(std::string& out, std::uint64_t value, int count) {
    for (int shift = 8 * (count - 1); shift >= 0; shift -= 8)
        out += byte_of(static_cast<int>(value >> shift & 0xFF));
}

/// Groups of seven bits, most significant first, all but the last marked.
void put_variable(std::string& out, std::uint64_t value) {
    if (value >= 1U << 28)
        throw error(message::midi_too_long, "", {}, value);
    for (int shift = 21; shift > 0; shift -= 7)
        if (value >> shift != 0)
            out += byte_of(static_cast<int>(value >> shift & 0x7F) | 0x80);
    out += byte_of(static_cast<int>(value & 0x7F));
}

void put_chunk(std::string& out, std::string_view kind, std::string_view content) {
    out += kind;
    put_number(out, content.size(), 4);
    out += content;
}

/// Without its time. `running` is the status of the event before, 0 where none runs.
void put_event(std::string& out, const Event& event, std::uint8_t& running) {
    if (event.is_channel()) {
        if (event.status != running)
            out += byte_of(event.status);
        running = event.status;
        out += event.data;
        return;
    }
    running = 0;
    out += byte_of(event.status);
    if (event.status == status::meta)
        out += byte_of(event.type);
    put_variable(out, event.data.size());
    out += event.data;
}

std::string track_bytes(const Track& track) {
    std::string out;
    out.reserve(4 * track.events.size() + 8);
    std::uint8_t running = 0;
    Ticks now = 0;
    for (const Event& event : track.events) {
        put_variable(out, static_cast<std::uint64_t>(event.time - now));
        now = event.time;
        put_event(out, event, running);
    }
    put_variable(out, static_cast<std::uint64_t>(track.end - now));
    put_event(out, meta_event(track.end, meta::end_of_track, ""), running);
    return out;
}

void put_header(std::string& out, const File& file) {
    const auto [ticks, frames] = file.time_base;
    std::string header;
    put_number(header, static_cast<std::uint64_t>(file.format), 2);
    put_number(header, file.tracks.size(), 2);
    put_number(header,
               static_cast<std::uint64_t>(frames == 0 ? ticks : (256 - frames) << 8 | ticks), 2);
    put_chunk(out, "MThd", header);
}

} // namespace

Event note_on(Ticks time, int channel, int key, int velocity) {
    return channel_event(time, status::note_on, channel, {key, velocity});
}

Event note_off(Ticks time, int channel, int key, int velocity) {
    return channel_event(time, status::note_off, channel, {key, velocity});
}

Event control(Ticks time, int channel, int controller, int value) {
    return channel_event(time, status::control, channel, {controller, value});
}

Event program(Ticks time, int channel, int number) {
    return channel_event(time, status::program, channel, {number});
}

Event pitch_bend(Ticks time, int channel, int value) {
    return channel_event(time, status::pitch_bend, channel,
                         {value & 0x7F, value >> 7}); // or refused
}

Event system_exclusive(Ticks time, std::string_view message) {
    check_argument(message.size() > 1, "a system exclusive message", "one from F0 to F7");
    return {time, status::system_exclusive, 0, std::string(message.substr(1))};
}

Event meta_event(Ticks time, std::uint8_t type, std::string_view data) {
    return {time, status::meta, type, std::string(data)};
}

Event tempo(Ticks time, std::uint32_t microseconds) {
    constexpr std::uint32_t behind_most = 1 << 24;
    check_argument(microseconds > 0 && microseconds < behind_most, "a tempo",
                   "1 to 2^24 - 1 microseconds");
    std::string data;
    put_number(data, microseconds, 3);
    return meta_event(time, meta::tempo, data);
}

std::uint32_t microseconds_of(const Event& tempo) {
    return static_cast<std::uint32_t>(tempo.byte(0) << 16 | tempo.byte(1) << 8 | tempo.byte(2));
}

std::string file_bytes(const File& file) {
    check_argument(file.format >= 0 && file.format <= 2, "the format of a MIDI file", "0, 1 or 2");
    check(file.time_base);
    if (file.tracks.size() > (file.format == 0 ? 1 : 0xFFFF))
        throw error(message::midi_too_many_tracks, "", {}, file.format, file.tracks.size());
    std::string out;
    put_header(out, file);
    for (const Track& track : file.tracks)
        put_chunk(out, "MTrk", track_bytes(track));
    for (const OtherChunk& other : file.others)
        put_chunk(out, other.kind, other.bytes);
    return out;
}

} // namespace sectio::midi
