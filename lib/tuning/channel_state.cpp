#include <sectio/tuning/channel_state.hpp>

namespace sectio::tuning {

namespace {

constexpr std::size_t bank = 0, bank_fine = 32, first_mode = 120;
constexpr int reset = 121;

/// What a receiver has where nothing was said: volume 100, pan in the middle, expression full.
/// Source: "General MIDI Level 2" (RP-024), and RP-015 on resetting controllers; others 0.
int usual(std::size_t controller) {
    switch (controller) {
    case 7:
        return 100;
    case 8:
    case 10:
        return 64;
    case 11:
        return 127;
    default:
        return 0;
    }
}

} // namespace

bool ChannelState::take(const midi::Event& event) {
    if (event.kind() == midi::status::program)
        program_ = event.byte(0);
    else if (event.kind() == midi::status::channel_pressure)
        pressure_ = event.byte(0);
    else if (event.kind() == midi::status::control && event.byte(0) == reset)
        put_back();
    else if (event.kind() == midi::status::control
             && static_cast<std::size_t>(event.byte(0)) < first_mode)
        controllers_[static_cast<std::size_t>(event.byte(0))] =
            static_cast<std::int16_t>(event.byte(1));
    else
        return false;
    return true;
}

/// Source: "Response to Reset All Controllers" (RP-015).
void ChannelState::put_back() {
    for (const std::size_t number : {1, 64, 65, 66, 67})
        controllers_[number] = 0;
    controllers_[11] = 127;
    pressure_ = 0;
}

void ChannelState::set_controller(std::size_t number, int value, midi::Ticks time, int channel,
                                  std::vector<midi::Event>& out) {
    const int now = controllers_[number];
    if (value < 0 && now < 0)
        return;
    const int wanted = value < 0 ? usual(number) : value;
    if (now == wanted)
        return;
    out.push_back(midi::control(time, channel, static_cast<int>(number), wanted));
    controllers_[number] = static_cast<std::int16_t>(wanted);
}

void ChannelState::become(const ChannelState& wanted, midi::Ticks time, int channel,
                          std::vector<midi::Event>& out) {
    if (*this == wanted)
        return; // nothing below would be said
    const std::size_t before = out.size();
    for (const std::size_t number : {bank, bank_fine})
        set_controller(number, wanted.controllers_[number], time, channel, out);
    const bool other_bank = out.size() != before;
    const int program = wanted.program_ < 0 && program_ >= 0 ? 0 : wanted.program_;
    if (program >= 0 && (program != program_ || other_bank)) {
        out.push_back(midi::program(time, channel, program));
        program_ = program;
    }
    for (std::size_t number = 0; number < first_mode; ++number)
        if (number != bank && number != bank_fine)
            set_controller(number, wanted.controllers_[number], time, channel, out);
    const int pressure = wanted.pressure_ < 0 && pressure_ >= 0 ? 0 : wanted.pressure_;
    if (pressure != pressure_) {
        out.push_back({time, static_cast<std::uint8_t>(midi::status::channel_pressure | channel), 0,
                       std::string(1, static_cast<char>(pressure))});
        pressure_ = pressure;
    }
}

} // namespace sectio::tuning
