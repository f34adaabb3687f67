#pragma once
/// @file
/// The tuning messages that say a table of keys, and how well they say it.

#include <sectio/tuning/key_table.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <optional>
#include <vector>

namespace sectio::tuning {

/// One key, and what the messages make of it.
struct RetunedKey {
    int key;
    DegreeAt at;
    Pitch pitch;                       ///< as the scale has it
    Pitch written;                     ///< as the messages say it
    std::optional<FrequencyWord> word; ///< of the messages that hold words
    /// From the pitch to what was written: step minus degree.
    Interval error() const { return written - pitch; }
};

/// Messages, and their accuracy.
struct Retuning {
    std::vector<TuningMessage> messages;
    std::vector<RetunedKey> keys; ///< those that the messages retune
    std::vector<int> beyond;      ///< keys whose pitch no message can say; they keep their own
    /// The key that is written worst; nothing where every key is exact.
    std::optional<RetunedKey> worst() const;
};

/// Says `table` by messages like `asked`, which has kind, device, bank, program, name and channels.
/// Single note changes are shared out over as many messages as they need.
/// @throws Error tuning_not_octave, tuning_offset_range for messages of 12 offsets;
/// tuning_nothing_to_say where no key is retuned
Retuning retune(const KeyTable& table, const TuningMessage& asked);

/// The system exclusive messages of `kind` that bring an instrument into `scale`, a key a degree
/// with the tonic on its nearest key. @throws Error as retune()
std::string tuning_bytes(const TunedScale& scale, MessageKind kind = MessageKind::bulk_dump);

} // namespace sectio::tuning
