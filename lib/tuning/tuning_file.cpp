#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/tuning_file.hpp>

#include <set>
#include <utility>

namespace sectio::tuning {

namespace {

/// Ticks that a cable takes for so many bytes, and a fiftieth of a second for the receiver to store
/// them. Ten bits a byte at 31 250 a second; 960 ticks a second.
midi::Ticks transfer_ticks(std::size_t bytes) {
    constexpr std::size_t ticks_a_second = 960, bytes_a_second = 3125;
    return static_cast<midi::Ticks>((bytes * ticks_a_second + bytes_a_second - 1) / bytes_a_second
                                    + ticks_a_second / 50);
}

} // namespace

/// Registered parameters: the tuning's bank, then its program, then none, so that a stray data
/// entry changes nothing. MIDI Tuning Standard, "Tuning program select" and "Tuning bank select".
void select_tuning(std::vector<midi::Event>& events, midi::Ticks time, int channel, int bank,
                   int program) {
    constexpr int data_entry = 6, parameter_low = 100, parameter_high = 101;
    const auto add = [&](int controller, int value) {
        events.push_back(midi::control(time, channel, controller, value));
    };
    for (const auto& [parameter, value] : {std::pair(4, bank), std::pair(3, program)}) {
        add(parameter_high, 0);
        add(parameter_low, parameter);
        add(data_entry, value);
    }
    add(parameter_high, 0x7F);
    add(parameter_low, 0x7F);
}

std::string exclusive_bytes(const std::vector<TuningMessage>& messages) {
    std::string out;
    for (const TuningMessage& message : messages)
        out += bytes_of(message);
    return out;
}

midi::File tuning_midi_file(const std::vector<TuningMessage>& messages, std::uint16_t channels) {
    midi::Track track;
    track.events.push_back(midi::tempo(0, 500'000));
    std::set<std::pair<int, int>> selected; // bank and program
    for (const TuningMessage& message : messages) {
        const std::string bytes = bytes_of(message);
        track.events.push_back(midi::system_exclusive(track.end, bytes));
        track.end += transfer_ticks(bytes.size());
        if (const KindRow& row = row_of(message.kind); row.program)
            selected.insert({row.bank ? message.bank : 0, message.program});
    }
    for (const auto& [bank, program] : selected)
        for (int channel = 0; channel < 16; ++channel)
            if (channels >> channel & 1)
                select_tuning(track.events, track.end, channel, bank, program);
    track.end += 480;
    return {0, {480, 0}, {std::move(track)}, {}};
}

namespace {

void take_message(TuningFile& file, std::string_view message, const std::string& name,
                  const std::string& where) {
    if (carries_tuning(message))
        file.messages.push_back(read_message(message, name, where));
    else
        ++file.others;
}

bool is_real_time(char byte) {
    return static_cast<unsigned char>(byte) >= 0xF8;
}

/// Messages one after the other. Clock ticks and the like may stand between any two bytes.
TuningFile read_exclusive(std::string_view bytes, const std::string& name) {
    TuningFile file;
    std::string message;
    std::size_t begin = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const auto byte = static_cast<unsigned char>(bytes[i]);
        if (is_real_time(bytes[i]))
            continue;
        if (message.empty() ? bytes[i] != begin_exclusive
                            : byte >= 0x80 && bytes[i] != end_exclusive)
            throw error(message::exclusive_stray_byte, "", Place{name}, fmt::format("{:02X}", byte),
                        i);
        if (message.empty())
            begin = i;
        message += bytes[i];
        if (bytes[i] != end_exclusive)
            continue;
        take_message(file, message, name, fmt::format("at byte {}", begin));
        message.clear();
    }
    if (!message.empty())
        throw error(message::exclusive_cut, "", Place{name}, begin);
    return file;
}

/// The messages of a track, each put together of its packets.
void read_track(const midi::Track& track, TuningFile& file, const std::string& name) {
    std::string message, where;
    const auto check_ended = [&] {
        if (carries_tuning(message))
            throw error(message::tuning_not_ended, "", Place{name}, where);
    };
    for (const midi::Event& event : track.events) {
        if (event.status == midi::status::system_exclusive) {
            check_ended();
            message = begin_exclusive + event.data;
            where = fmt::format("at tick {}", event.time);
        } else if (event.status == midi::status::escape && !message.empty())
            message += event.data;
        if (message.empty() || message.back() != end_exclusive)
            continue;
        take_message(file, message, name, where);
        message.clear();
    }
    check_ended();
}

} // namespace

TuningFile read_tuning_file(std::string_view bytes, const std::string& name) {
    TuningFile file;
    if (bytes.starts_with("MThd"))
        for (const midi::Track& track : midi::read_file(bytes, name).tracks)
            read_track(track, file, name);
    else
        file = read_exclusive(bytes, name);
    if (file.messages.empty())
        throw error(message::no_tuning_message, "", Place{name});
    return file;
}

} // namespace sectio::tuning
