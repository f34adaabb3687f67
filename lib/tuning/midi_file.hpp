#pragma once
/// @file
/// Standard MIDI Files, read and written. Source: "Standard MIDI Files 1.0" (RP-001), MIDI
/// Manufacturers Association, 1988, revised 1996; message bytes: "MIDI 1.0 Detailed Specification".

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::midi {

/// A time in ticks, from the start of a track. See TimeBase for how long a tick is.
using Ticks = std::int64_t;

/// First bytes of the events that a file holds, other than channel messages.
namespace status {
inline constexpr std::uint8_t note_off = 0x80, note_on = 0x90, key_pressure = 0xA0, control = 0xB0,
                              program = 0xC0, channel_pressure = 0xD0, pitch_bend = 0xE0;
inline constexpr std::uint8_t system_exclusive = 0xF0; ///< data runs from after F0, with any F7
inline constexpr std::uint8_t escape = 0xF7; ///< any bytes: the rest of a message, or realtime
inline constexpr std::uint8_t meta = 0xFF;
} // namespace status

/// Types of meta events.
namespace meta {
inline constexpr std::uint8_t text = 0x01, copyright = 0x02, track_name = 0x03, instrument = 0x04,
                              lyric = 0x05, marker = 0x06, cue = 0x07, channel_prefix = 0x20,
                              end_of_track = 0x2F, tempo = 0x51, smpte_offset = 0x54,
                              time_signature = 0x58, key_signature = 0x59, sequencer = 0x7F;
} // namespace meta

/// One event of a track. The end of track is no event here: Track keeps its time.
struct Event {
    Ticks time = 0;
    std::uint8_t status = 0; ///< 80 … EF with its channel, or one of F0, F7 and FF
    std::uint8_t type = 0;   ///< of a meta event; 0 for others
    std::string data;        ///< the bytes after; one or two for a channel message

    bool is_channel() const { return status < 0xF0; }
    bool is_meta(std::uint8_t wanted) const { return status == status::meta && type == wanted; }
    /// Kind of a channel message: its status byte without the channel.
    std::uint8_t kind() const { return is_channel() ? status & 0xF0 : status; }
    /// 0 … 15, which people call 1 … 16.
    int channel() const { return status & 0x0F; }
    int byte(std::size_t index) const { return static_cast<unsigned char>(data[index]); }
    /// A note begins: a note-on whose velocity is not 0.
    bool begins_note() const { return kind() == status::note_on && byte(1) != 0; }
    /// A note ends: a note-off, or a note-on of velocity 0.
    bool ends_note() const {
        return kind() == status::note_off || (kind() == status::note_on && byte(1) == 0);
    }

    friend bool operator==(const Event&, const Event&) = default;
};

// Events made. Channels 0 … 15, other numbers 0 … 127 unless said. @throws Error unfit_argument
Event note_on(Ticks time, int channel, int key, int velocity);
Event note_off(Ticks time, int channel, int key, int velocity = 64);
Event control(Ticks time, int channel, int controller, int value);
Event program(Ticks time, int channel, int number);
/// `value` 0 … 16383, 8192 in the middle.
Event pitch_bend(Ticks time, int channel, int value);
/// `message` from F0 to F7, both included.
Event system_exclusive(Ticks time, std::string_view message);
Event meta_event(Ticks time, std::uint8_t type, std::string_view data);
/// `microseconds` 1 … 2^24 - 1 to the quarter note.
Event tempo(Ticks time, std::uint32_t microseconds);
/// Microseconds to the quarter note that a tempo event says.
std::uint32_t microseconds_of(const Event& tempo);

/// Events in the order of their times, and the time at which the track ends.
struct Track {
    std::vector<Event> events;
    Ticks end = 0; ///< not before the last event
    friend bool operator==(const Track&, const Track&) = default;
};

/// How long a tick is: a part of a quarter note, whose length the tempo says, or, where `frames` is
/// not 0, a part of a frame of 24, 25, 29 (30 drop frame, 29.97) or 30 a second.
struct TimeBase {
    int ticks = 480; ///< to the quarter note 1 … 32767, or to the frame 1 … 255
    int frames = 0;
    friend bool operator==(const TimeBase&, const TimeBase&) = default;
};

/// @throws Error unfit_argument for numbers that no file holds
void check(const TimeBase& base);

/// A chunk of a kind that the standard does not name; kept, and written after the tracks.
struct OtherChunk {
    std::string kind; ///< four characters
    std::string bytes;
    friend bool operator==(const OtherChunk&, const OtherChunk&) = default;
};

/// A whole file. Format 0 is one track; in format 1 the tracks sound together, in format 2 they are
/// pieces of their own.
struct File {
    int format = 1;
    TimeBase time_base;
    std::vector<Track> tracks;
    std::vector<OtherChunk> others;
    friend bool operator==(const File&, const File&) = default;
};

/// Reads `bytes`, which errors call `name`. Strict: whatever the standard does not allow is
/// refused.
/// @throws Error midi_empty, midi_no_header, midi_header, midi_chunk_cut, midi_not_a_chunk,
/// midi_track_count, midi_event_cut, midi_long_number, midi_no_status, midi_unknown_status,
/// midi_data_byte, midi_meta_length, midi_no_end, midi_after_end, midi_too_many_tracks
File read_file(std::string_view bytes, const std::string& name);
/// The same from disk. @throws Error also cannot_read, file_too_large (limits::midi_file_bytes)
File read_file(const std::filesystem::path& file);

/// The file's bytes, with running status. Reading them gives the same file again.
/// Precondition: each track's events in the order of their times, none after its end.
/// @throws Error midi_too_many_tracks, midi_too_long
std::string file_bytes(const File& file);

} // namespace sectio::midi
