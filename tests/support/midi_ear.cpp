#include <catch2/catch.hpp>
#include <support/midi_ear.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace support {

namespace {

struct RawEvent {
    long time;
    std::string bytes; ///< status first
};

class Reader {
  public:
    explicit Reader(const std::string& bytes) : bytes_(bytes) {}
    int byte() {
        REQUIRE(at_ < bytes_.size());
        return static_cast<unsigned char>(bytes_[at_++]);
    }
    long big(int count) {
        long value = 0;
        while (count-- > 0)
            value = value * 256 + byte();
        return value;
    }
    long variable() {
        long value = 0;
        for (int b = 128; b >= 128;) {
            b = byte();
            value = value * 128 + b % 128;
        }
        return value;
    }
    std::string take(long count) {
        std::string out;
        while (count-- > 0)
            out += static_cast<char>(byte());
        return out;
    }
    std::size_t at() const { return at_; }

  private:
    const std::string& bytes_;
    std::size_t at_ = 0;
};

void read_track(Reader& in, std::vector<RawEvent>& events) {
    REQUIRE(in.take(4) == "MTrk");
    const long length = in.big(4);
    const std::size_t end = in.at() + static_cast<std::size_t>(length);
    long now = 0;
    int status = 0;
    std::string carried;
    while (in.at() < end) {
        now += in.variable();
        int first = in.byte();
        std::string event;
        if (first == 0xFF) {
            event = {static_cast<char>(first), static_cast<char>(in.byte())};
            event += in.take(in.variable());
        } else if (first == 0xF0 || first == 0xF7) {
            event = static_cast<char>(first) + in.take(in.variable());
        } else {
            if (first >= 0x80)
                status = first, first = in.byte();
            const bool one = status / 16 == 0xC || status / 16 == 0xD;
            event = {static_cast<char>(status), static_cast<char>(first)};
            if (!one)
                event += static_cast<char>(in.byte());
        }
        events.push_back({now, event});
    }
    REQUIRE(in.at() == end);
}

struct Channel {
    int program = 0, volume = 100, parameter = 0x3FFF, bend = 8192;
    double range = 2;
    std::optional<int> tuning;        ///< program that registered parameter 3 selected
    std::array<double, 12> offsets{}; ///< semitones, where octave messages came
    double bent() const { return (bend - 8192) / 8192.0 * range; }
};

class Ear {
  public:
    explicit Ear(Heard& out) : out_(out) {
        for (std::size_t i = 0; i < 128; ++i)
            for (std::size_t key = 0; key < 128; ++key)
                tunings_[i][key] = static_cast<double>(key);
    }

    void hear(const RawEvent& event) {
        const auto byte = [&](std::size_t i) {
            return i < event.bytes.size() ? static_cast<unsigned char>(event.bytes[i]) : 0;
        };
        const int kind = byte(0) / 16, number = byte(0) % 16;
        Channel& channel = channels_[static_cast<std::size_t>(number)];
        if (kind == 9 && byte(2) > 0)
            begin(event.time, number, byte(1), byte(2));
        else if (kind == 8 || kind == 9)
            end(event.time, number, byte(1));
        else if (kind == 0xB)
            control(channel, byte(1), byte(2));
        else if (kind == 0xC)
            channel.program = byte(1);
        else if (kind == 0xE)
            channel.bend = byte(1) + 128 * byte(2);
        else if (byte(0) == 0xF0)
            exclusive(event.bytes);
        else if (byte(0) == 0xFF && byte(1) == 0x51)
            out_.tempos.emplace_back(event.time, (byte(2) * 256 + byte(3)) * 256 + byte(4));
        else if (byte(0) == 0xFF && byte(1) >= 1 && byte(1) <= 7)
            out_.texts.push_back(event.bytes.substr(2));
        for (HeardNote& note : out_.notes)
            if (note.end < 0)
                note.moved = std::max(note.moved,
                                      std::abs(pitch(note.channel, keys_[index(note)]) - note.key));
    }

  private:
    std::size_t index(const HeardNote& note) const {
        return static_cast<std::size_t>(&note - out_.notes.data());
    }
    double pitch(int channel, int key) const {
        const Channel& heard = channels_[static_cast<std::size_t>(channel)];
        const double own =
            heard.tuning
                ? tunings_[static_cast<std::size_t>(*heard.tuning)][static_cast<std::size_t>(key)]
                : key;
        return own + heard.offsets[static_cast<std::size_t>(key % 12)] + heard.bent();
    }
    void begin(long time, int number, int key, int velocity) {
        const Channel& channel = channels_[static_cast<std::size_t>(number)];
        keys_.push_back(key);
        out_.notes.push_back(
            {time, -1, number, pitch(number, key), velocity, channel.program, channel.volume, 0});
    }
    void end(long time, int number, int key) {
        for (HeardNote& note : out_.notes)
            if (note.end < 0 && note.channel == number && keys_[index(note)] == key) {
                note.end = time;
                return;
            }
        FAIL("a note-off without its note");
    }
    void control(Channel& channel, int controller, int value) {
        if (controller == 7)
            channel.volume = value;
        if (controller == 101)
            channel.parameter = value * 128 + channel.parameter % 128;
        if (controller == 100)
            channel.parameter = channel.parameter / 128 * 128 + value;
        if (controller == 6 && channel.parameter == 0)
            channel.range = value;
        if (controller == 6 && channel.parameter == 3)
            channel.tuning = value;
        if (controller == 6 && channel.parameter == 6)
            out_.zone = true;
    }
    void key(int program, int key, const std::string& bytes, std::size_t at) {
        if (bytes.substr(at, 3) != "\x7F\x7F\x7F")
            tunings_[static_cast<std::size_t>(program)][static_cast<std::size_t>(key)] =
                bytes[at] + (bytes[at + 1] * 128 + bytes[at + 2]) / 16384.0;
    }
    /// F0 sort device 08 08/09 ff gg hh, then twelve of one byte or two
    void octave(const std::string& bytes) {
        const int channels = bytes[5] << 14 | bytes[6] << 7 | bytes[7];
        for (std::size_t number = 0; number < 16; ++number)
            for (std::size_t i = 0; i < 12 && (channels >> number & 1) != 0; ++i)
                channels_[number].offsets[i] =
                    bytes[4] == 8 ? (bytes[8 + i] - 64) / 100.0
                                  : (bytes[8 + 2 * i] * 128 + bytes[9 + 2 * i] - 8192) / 8192.0;
    }
    /// F0 7F device 08 02 program count (key xx yy zz)… F7, F0 7E device 08 01 program name[16]
    /// (xx yy zz)*128 sum F7, and octave messages
    void exclusive(const std::string& bytes) {
        if (bytes.size() < 8 || bytes[3] != 8)
            return;
        if (bytes[4] == 8 || bytes[4] == 9)
            octave(bytes);
        if (bytes[4] == 1 && bytes.size() == 408)
            for (int i = 0; i < 128; ++i)
                key(bytes[5], i, bytes, 22 + 3 * static_cast<std::size_t>(i));
        if (bytes[1] == 0x7F && bytes[4] == 2)
            for (std::size_t i = 7; i + 4 < bytes.size(); i += 4)
                key(bytes[5], bytes[i], bytes, i + 1);
    }

    Heard& out_;
    std::array<Channel, 16> channels_{};
    std::array<std::array<double, 128>, 128> tunings_{};
    std::vector<int> keys_; ///< of the notes
};

} // namespace

Heard heard(const std::string& bytes) {
    Reader in(bytes);
    Heard out;
    REQUIRE(in.take(4) == "MThd");
    REQUIRE(in.big(4) == 6);
    REQUIRE(in.big(2) <= 1);
    const long tracks = in.big(2);
    out.ticks = static_cast<int>(in.big(2));
    std::vector<RawEvent> events;
    for (long track = 0; track < tracks; ++track)
        read_track(in, events);
    REQUIRE(in.at() == bytes.size());
    std::stable_sort(events.begin(), events.end(),
                     [](const RawEvent& a, const RawEvent& b) { return a.time < b.time; });
    Ear ear(out);
    for (const RawEvent& event : events)
        ear.hear(event);
    return out;
}

} // namespace support
