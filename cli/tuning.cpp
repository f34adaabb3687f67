// sectio tuning SCALE: tuning data by the MIDI Tuning Standard. sectio tuning read FILE: and back.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/base/comma_list.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/scale/scale_file_text.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/tuning_page.hpp>

#include <algorithm>
#include <filesystem>
#include <iostream>

namespace sectio::cli {

namespace {

struct TuningRequest {
    CommonOptions common;
    std::string scale;
    TuningOptions tuning;
    std::string keys = "degree";
    std::string mapping;
    std::string anchor;
    std::string kind;
    tuning::TuningMessage message;
    bool non_real_time = false;
    std::vector<std::string> channels;
};

struct ReadRequest {
    CommonOptions common;
    std::string file;
    std::string tonic;
    std::optional<int> bank, program, channel;
};

/// The key of a note without cents.
int key_of(const StatedPitch& stated, const Place& place) {
    if (!stated.is_key() || stated.note()->name.quarter_tones % 2 != 0)
        throw error(message::tuning_no_key, stated.text(), place);
    return sectio::key_of(*stated.note());
}

bool is_whole_number(const std::string& text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
}

/// A key as its number, or as such a note.
int key_argument(const std::string& text, const char* option) {
    const bool number = is_whole_number(text.starts_with('-') ? text.substr(1) : text);
    const int key = !number            ? key_of(parse_tonic(text, {option}), {option})
                    : text.size() <= 3 ? std::stoi(text)
                                       : -1;
    if (key < 0 || key >= tuning::key_count)
        throw error(message::tuning_no_key, text, {option});
    return key;
}

tuning::KeyMapping mapping_of(const TuningRequest& request, const TunedScale& scale) {
    const int own = scale.degrees()[scale.tonic_index()].key;
    const int anchor = request.anchor.empty() ? std::clamp(own, 0, tuning::key_count - 1)
                                              : key_argument(request.anchor, "--anchor");
    if (!request.mapping.empty())
        return tuning::parse_mapping(request.mapping, anchor, {"--mapping"});
    return request.keys == "12" ? tuning::nearest_keys(scale.scale(), anchor)
                                : tuning::KeyMapping{anchor, {}};
}

/// "1,2,10".
std::uint16_t channel_bits(const std::vector<std::string>& lists) {
    constexpr int channels = 16;
    std::uint16_t bits = 0;
    for (const std::string& list : lists)
        for (const ListItem& item : comma_list(list, "--channels")) {
            const int channel =
                item.text.size() <= 2 && is_whole_number(item.text) ? std::stoi(item.text) : 0;
            if (channel < 1 || channel > channels)
                throw error(message::tuning_no_channel, item.text, item.place);
            bits = static_cast<std::uint16_t>(bits | 1 << (channel - 1));
        }
    return lists.empty() ? 0xFFFF : bits;
}

/// What the request's options say, without a tuning yet. Most receivers of MIDI files honour single
/// note changes; stores of instruments are filled by dumps.
tuning::TuningMessage model_of(const TuningRequest& request, const Scale& scale) {
    tuning::TuningMessage message = request.message;
    message.kind = !request.kind.empty() ? tuning::parse_message_kind(request.kind, {"--message"})
                   : ending(request.common.out) == midi_file.ending
                       ? tuning::MessageKind::note_change
                       : tuning::MessageKind::bulk_dump;
    message.real_time = !request.non_real_time;
    message.channels = channel_bits(request.channels);
    if (message.name.empty())
        message.name = scale.id.empty() ? scale.name : scale.id;
    return message;
}

bool is_data_file(const std::string& file) {
    return ending(file) == exclusive_data.ending || ending(file) == midi_file.ending;
}

void write_data(const TuningRequest& request, const tuning::Retuning& retuning) {
    const auto& messages = retuning.messages;
    const std::string bytes =
        ending(request.common.out) == midi_file.ending
            ? midi::file_bytes(tuning_midi_file(messages, channel_bits(request.channels)))
            : tuning::exclusive_bytes(messages);
    write_whole(request.common.out, bytes);
}

/// What is said of a message must have a place in it.
void check_fields(const TuningRequest& request, const tuning::KindRow& row,
                  const Command& command) {
    const std::string in = fmt::format("in {} messages", row.name);
    if (!row.bank)
        command.refuse_idle({"--bank"}, in + ", which have no bank");
    if (!row.program)
        command.refuse_idle({"--program"}, in + ", which have no program");
    if (!row.named)
        command.refuse_idle({"--name"}, in + ", which have no name");
    if (row.program && ending(request.common.out) != midi_file.ending)
        command.refuse_idle({"--channels"},
                            in
                                + ", which speak of no channels; a .mid file selects "
                                  "the program on channels");
    if (!request.mapping.empty())
        command.refuse_idle({"--keys"}, "beside --mapping, which says what lies on each key");
}

void run(const TuningRequest& request, const Command& command) {
    if (request.scale.empty())
        throw error(message::tuning_no_scale, "", {"tuning"});
    check_out(request.common);
    const TunedScale scale = tuned(scale_argument(request.scale), request.tuning);
    const tuning::KeyTable table = tuning::key_table(scale, mapping_of(request, scale));
    const tuning::TuningMessage model = model_of(request, scale.scale());
    check_fields(request, tuning::row_of(model.kind), command);
    const tuning::Retuning retuning = tuning::retune(table, model);
    CommonOptions shown = request.common;
    if (is_data_file(request.common.out)) {
        write_data(request, retuning);
        shown.out.clear();
    }
    answer(tuning::tuning_page(scale, retuning), shown, command);
}

const tuning::StoredTuning& chosen(const std::vector<tuning::StoredTuning>& tunings,
                                   const ReadRequest& request) {
    const auto found =
        std::find_if(tunings.begin(), tunings.end(), [&](const tuning::StoredTuning& stored) {
            if (request.channel)
                return (stored.channels >> (*request.channel - 1) & 1) != 0;
            const bool any = !request.bank && !request.program;
            return any
                   || (stored.channels == 0 && (!request.bank || stored.bank == *request.bank)
                       && (!request.program || stored.program == *request.program));
        });
    if (found == tunings.end())
        throw error(message::tuning_not_in_file, "", {request.file});
    return *found;
}

void run_read(const ReadRequest& request, const Command& command) {
    check_out(request.common);
    const bool piped = request.file == "-";
    const std::string from = piped ? "standard input" : request.file;
    const auto file =
        tuning::read_tuning_file(piped ? read_whole(std::cin, from, limits::midi_file_bytes)
                                       : read_whole(request.file, limits::midi_file_bytes),
                                 from);
    const auto tunings = tuning::stored_tunings(file.messages);
    const tuning::StoredTuning& stored = chosen(tunings, request);
    const auto key = request.tonic.empty() ? std::nullopt
                                           : std::optional(key_argument(request.tonic, "--tonic"));
    const std::string name = std::filesystem::path(from).stem().string();
    const Scale scale = tuning::scale_of(stored, name, key);
    CommonOptions shown = request.common;
    if (ending(request.common.out) == scale_file.ending) {
        write_whole(request.common.out, scale_file_text(scale));
        shown.out.clear();
    }
    answer(tuning::stored_tuning_page(file, tunings, stored, tuned(scale)), shown, command);
}

void add_read(Command& tuning) {
    const auto request = std::make_shared<ReadRequest>();
    Command* command = tuning.add_subcommand("read", "the scale in a file of tuning messages");
    command
        ->add_option("FILE", request->file,
                     "tuning messages (.syx), or a MIDI file with them, or - for standard input")
        ->required();
    command->add_option("--tonic", request->tonic, "the key of the tonic, such as D4 or 62");
    Option* bank = command->add_option("--bank", request->bank,
                                       "of several tunings in the file: the bank, from 0");
    Option* program = command->add_option("--program", request->program,
                                          "of several tunings in the file: the program, from 0");
    command
        ->add_option("--channel", request->channel,
                     "of several tunings in the file: that of a channel, from 1")
        ->between(1, 16)
        ->excludes(bank)
        ->excludes(program);
    add_common_options(*command, request->common, page_kinds({scale_file}));
    command->callback([request, command] { run_read(*request, *command); });
}

void add_keys(Command& command, TuningRequest& request) {
    command
        .add_option("--keys", request.keys,
                    "degree for a key a degree (default), or 12 for 12 keys an octave")
        ->one_of({"degree", "12"});
    command.add_option("--mapping", request.mapping,
                       "the degrees of the keys from the anchor up, such as 1,-,2,-,3");
    command.add_option("--anchor", request.anchor,
                       "the key that sounds the tonic, such as D4 or 62; else the nearest");
}

void add_message(Command& command, TuningRequest& request) {
    std::string kinds;
    for (const auto& row : tuning::message_kinds())
        kinds += (kinds.empty() ? "" : ", ") + std::string(row.name);
    command.add_option("--message", request.kind, "the kind of message: " + kinds);
    command.add_option("--bank", request.message.bank, "tuning bank, from 0")->between(0, 127);
    command.add_option("--program", request.message.program, "tuning program, from 0")
        ->between(0, 127);
    command.add_option("--device", request.message.device, "device, 127 for all")->between(0, 127);
    command.add_option("--name", request.message.name, "of a dump, up to 16 letters of ASCII");
    command.add_option("--channels", request.channels,
                       "channels that take the tuning, from 1 to 16, such as 1,2");
    command.add_flag("--non-real-time", request.non_real_time,
                     "leave notes alone that sound when the message comes");
}

} // namespace

void add_tuning(Command& app) {
    const auto request = std::make_shared<TuningRequest>();
    Command* command =
        app.add_subcommand("tuning", "a scale as MIDI Tuning Standard messages, and back");
    command->add_option("SCALE", request->scale, scale_help);
    command->add_option("--tonic", request->tuning.tonic, "pitch of the first degree, such as D4");
    command->add_option("--reference", request->tuning.reference,
                        "reference pitch, such as A4=442Hz");
    add_keys(*command, *request);
    add_message(*command, *request);
    add_common_options(*command, request->common, page_kinds({exclusive_data, midi_file}));
    add_read(*command);
    command->callback([request, command] {
        if (!command->calls_further())
            run(*request, *command);
    });
}

} // namespace sectio::cli
