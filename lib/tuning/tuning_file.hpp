#pragma once
/// @file
/// Tuning messages as files: system exclusive messages alone (.syx), or a Standard MIDI File that
/// also selects the tuning.

#include <sectio/tuning/midi_file.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio::tuning {

/// The messages one after the other, as instruments send and receive them.
std::string exclusive_bytes(const std::vector<TuningMessage>& messages);

/// A MIDI file of format 0 that sends the messages, each after the one before has passed a cable of
/// 31 250 baud, and then selects their program and bank on `channels` (bit 0 for channel 1) by the
/// registered parameters 4 (tuning bank) and 3 (tuning program). Messages for channels
/// (octave_1 and octave_2) need no selection and get none.
midi::File tuning_midi_file(const std::vector<TuningMessage>& messages, std::uint16_t channels);

/// The messages that select a stored tuning on `channel`, into `events`.
void select_tuning(std::vector<midi::Event>& events, midi::Ticks time, int channel, int bank,
                   int program);

/// What a file holds.
struct TuningFile {
    std::vector<TuningMessage> messages; ///< in their order
    std::size_t others = 0;              ///< system exclusive messages that carry no tuning
};

/// Reads a MIDI file (by its first bytes) or system exclusive messages, which errors call `name`.
/// @throws Error exclusive_stray_byte, exclusive_cut, tuning_not_ended, no_tuning_message, those of
/// read_message(), and those of midi::read_file()
TuningFile read_tuning_file(std::string_view bytes, const std::string& name);

} // namespace sectio::tuning
