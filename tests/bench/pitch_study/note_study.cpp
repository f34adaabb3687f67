// The third table of docs/measuring-studies.md: notes of real instruments, as the sound fonts of
// Debian hold them, rendered by fluidsynth without its echoes, and heard by Sectio and by three
// methods of aubio. Where two of those agree on the key, it is what is to be heard: an organ's
// stops may truly sound in other octaves, and a sample's label may be wrong.
//
//   build/tests/bench/note_study FONT.sf2           # 12 notes a program
//   build/tests/bench/note_study FONT.sf2 19        # of one program, note by note

#include "aubio_pitch.hpp"
#include "scenes.hpp"

#include <sectio/base/error.hpp>
#include <sectio/measure/recording.hpp>
#include <sectio/measure/sound_file.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace {

using sectio::measure::RecordedNote;

constexpr int notes_each = 12;
constexpr double note_s = 1.5, apart_s = 2.5;

/// Of General MIDI, numbered from 0, with keys that its instrument has (from memory).
struct Program {
    int number;
    const char* name;
    int lowest, highest;
};

constexpr Program programs[] = {
    {0, "piano", 28, 96},          {6, "harpsichord", 36, 88},   {9, "glockenspiel", 79, 103},
    {11, "vibraphone", 53, 89},    {12, "marimba", 45, 91},      {13, "xylophone", 65, 101},
    {15, "dulcimer", 48, 91},      {19, "church organ", 36, 91}, {20, "reed organ", 36, 91},
    {21, "accordion", 53, 89},     {24, "nylon guitar", 40, 83}, {25, "steel guitar", 40, 83},
    {32, "acoustic bass", 28, 55}, {40, "violin", 55, 96},       {41, "viola", 48, 88},
    {42, "cello", 36, 76},         {43, "contrabass", 28, 60},   {45, "pizzicato", 43, 88},
    {46, "harp", 28, 96},          {52, "choir", 48, 79},        {56, "trumpet", 54, 86},
    {57, "trombone", 40, 72},      {58, "tuba", 28, 60},         {60, "horn", 41, 77},
    {64, "soprano sax", 56, 87},   {65, "alto sax", 49, 80},     {66, "tenor sax", 44, 75},
    {67, "baritone sax", 36, 68},  {68, "oboe", 58, 91},         {69, "English horn", 52, 81},
    {70, "bassoon", 34, 72},       {71, "clarinet", 50, 91},     {72, "piccolo", 74, 102},
    {73, "flute", 60, 96},         {74, "recorder", 60, 96},     {75, "pan flute", 60, 96},
    {77, "shakuhachi", 55, 84},    {79, "ocarina", 60, 84},      {104, "sitar", 48, 79},
    {105, "banjo", 48, 84},        {106, "shamisen", 50, 79},    {107, "koto", 44, 84},
    {108, "kalimba", 48, 79},      {110, "fiddle", 55, 96},      {111, "shawm", 48, 79}};

int key_of(const Program& program, int note) {
    return program.lowest + (program.highest - program.lowest) * note / (notes_each - 1);
}

double hz_of(int key) {
    return 440 * std::exp2((key - 69) / 12.0);
}

/// A MIDI file whose ticks are milliseconds.
std::string midi_of(const Program& program) {
    std::string track;
    const auto after_ms = [&](double ms, std::initializer_list<int> event) {
        const int ticks = static_cast<int>(ms);
        track += static_cast<char>(0x80 | ticks >> 7), track += static_cast<char>(ticks & 0x7f);
        for (const int byte : event)
            track += static_cast<char>(byte);
    };
    after_ms(0, {0xc0, program.number});
    for (int i = 0; i < notes_each; ++i) {
        after_ms(i == 0 ? 0 : 1000 * (apart_s - note_s), {0x90, key_of(program, i), 90});
        after_ms(1000 * note_s, {0x80, key_of(program, i), 0});
    }
    after_ms(1000 * (apart_s - note_s), {0xff, 0x2f, 0});
    // Half a second a quarter, where nothing else is said, of 500 ticks.
    std::string file("MThd\0\0\0\6\0\0\0\1\1\364MTrk\0\0", 20);
    file += static_cast<char>(track.size() >> 8), file += static_cast<char>(track.size() & 0xff);
    return file + track;
}

std::vector<float> rendered(const std::string& font, const Program& program) {
    const auto path = std::filesystem::temp_directory_path() / fmt::format("notes{}", ::rand());
    std::ofstream(path.string() + ".mid", std::ios::binary) << midi_of(program);
    const std::string command =
        fmt::format("fluidsynth -niq -R 0 -C 0 -r {} -F '{}.wav' '{}' '{}.mid' >/dev/null 2>&1",
                    pitch_study::scene_rate, path.string(), font, path.string());
    std::vector<float> sound;
    if (std::system(command.c_str()) == 0) {
        sectio::measure::SoundFile file(path.string() + ".wav");
        sound.resize(static_cast<std::size_t>(file.promised_frames()));
        sound.resize(file.read(sound));
    }
    for (const char* ending : {".mid", ".wav"})
        std::filesystem::remove(path.string() + ending);
    return sound;
}

/// The pitch that Sectio gives most of the time; 0 where it gives none.
double by_sectio(std::span<const float> sound) {
    try {
        const auto notes = sectio::measure::listen(sound, pitch_study::scene_rate, "note").notes;
        const auto longest = std::max_element(notes.begin(), notes.end(),
                                              [](const RecordedNote& a, const RecordedNote& b) {
                                                  return a.end_s - a.start_s < b.end_s - b.start_s;
                                              });
        return longest == notes.end() ? 0 : longest->pitch.hz;
    } catch (const sectio::Error&) {
        return 0;
    }
}

double cents(double hz, double reference) {
    return hz > 0 && reference > 0 ? 1200 * std::log2(hz / reference) : 1e6;
}

bool same(double a, double b) {
    return std::abs(cents(a, b)) < 50;
}

bool octave_off(double a, double b) {
    const double off = cents(a, b);
    return off < 1e6 && !same(a, b) && std::abs(off - 1200 * std::round(off / 1200)) < 50;
}

struct Tally {
    int notes = 0, key = 0, agreed = 0, right = 0, octave = 0, other = 0, none = 0;

    void add(const Tally& t) {
        notes += t.notes, key += t.key, agreed += t.agreed, right += t.right;
        octave += t.octave, other += t.other, none += t.none;
    }
};

/// What two of the methods agree on, within a semitone of the key; 0 where none do.
double agreed(const std::array<double, 3>& others, double key_hz) {
    for (std::size_t i = 0; i < others.size(); ++i)
        for (std::size_t j = i + 1; j < others.size(); ++j)
            if (same(others[i], others[j]) && std::abs(cents(others[i], key_hz)) < 100)
                return others[i];
    return 0;
}

void judge(Tally& tally, std::span<const float> sound, double key_hz, const std::string& about) {
    std::array<double, 3> others{};
#ifdef SECTIO_AUBIO
    std::size_t at = 0;
    for (const char* method : {"yin", "yinfft", "mcomb"})
        others[at++] = pitch_study::median_by_aubio(method, sound);
#endif
    const double ours = by_sectio(sound), theirs = agreed(others, key_hz);
    ++tally.notes;
    tally.key += same(ours, key_hz);
    if (theirs > 0) {
        ++tally.agreed;
        ++(ours == 0                                  ? tally.none
           : same(ours, theirs) || same(ours, key_hz) ? tally.right
           : octave_off(ours, theirs)                 ? tally.octave
                                                      : tally.other);
    }
    if (!about.empty())
        fmt::print("{} {:.2f} Hz: {:.2f}, yin {:.2f}, yinfft {:.2f}, mcomb {:.2f}\n", about, key_hz,
                   ours, others[0], others[1], others[2]);
}

void print(const std::string& name, const Tally& t) {
    fmt::print("| {} | {} | {} | {} | {} | {} | {} | {} |\n", name, t.notes, t.key, t.agreed,
               t.right, t.octave, t.other, t.none);
    std::fflush(stdout);
}

Tally study(const std::string& font, const Program& program, bool talk) {
    Tally tally;
    const std::vector<float> sound = rendered(font, program);
    for (int i = 0; i < notes_each; ++i) {
        const auto first = static_cast<std::size_t>(i * apart_s * pitch_study::scene_rate);
        const auto length = static_cast<std::size_t>(note_s * pitch_study::scene_rate);
        if (first + length > sound.size())
            break;
        const int key = key_of(program, i);
        judge(tally, std::span(sound).subspan(first, length), hz_of(key),
              talk ? fmt::format("{} {}, key {}", program.number, program.name, key) : "");
    }
    return tally;
}

} // namespace

int main(int count, char** arguments) {
    if (count < 2)
        return 2;
    const int wanted = count > 2 ? std::atoi(arguments[2]) : -1;
    fmt::print("| program | notes | as the key | two agree on it | Sectio too | octave off | other "
               "| none |\n|---|---|---|---|---|---|---|---|\n");
    Tally all;
    for (const Program& program : programs) {
        if (wanted >= 0 && program.number != wanted)
            continue;
        const Tally tally = study(arguments[1], program, count > 2);
        print(program.name, tally);
        all.add(tally);
    }
    print("all", all);
}
