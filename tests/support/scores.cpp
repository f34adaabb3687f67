#include <support/bytes.hpp>
#include <support/scores.hpp>

#include <array>
#include <cstdint>

namespace support {

std::string note(const std::string& step, int octave, const std::string& alter,
                 const std::string& inside) {
    return "<note><pitch><step>" + step + "</step>"
           + (alter.empty() ? "" : "<alter>" + alter + "</alter>") + "<octave>"
           + std::to_string(octave) + "</octave></pitch><duration>1</duration>" + inside
           + "</note>\n";
}

std::string signed_note(const std::string& step, int octave, const std::string& sign,
                        const std::string& alter) {
    return note(step, octave, alter, "<accidental>" + sign + "</accidental>");
}

std::string attributes(const std::string& inside) {
    return "<attributes><divisions>1</divisions>" + inside + "</attributes>\n";
}

std::string score(const std::vector<std::string>& measures, const std::string& version) {
    std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<score-partwise version=\""
                       + version
                       + "\">\n<part-list><score-part id=\"P1\"><part-name>Drone zither</part-name>"
                         "</score-part></part-list>\n<part id=\"P1\">\n";
    for (std::size_t i = 0; i < measures.size(); ++i)
        text +=
            "<measure number=\"" + std::to_string(i + 1) + "\">\n" + measures[i] + "</measure>\n";
    return text + "</part>\n</score-partwise>\n";
}

std::string utf16(const std::string& text, bool little, bool mark) {
    std::string out;
    const auto put = [&](unsigned unit) {
        const char high = static_cast<char>(unit >> 8), low = static_cast<char>(unit & 0xFF);
        out += little ? low : high;
        out += little ? high : low;
    };
    if (mark)
        put(0xFEFF);
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[k]); };
        if (byte(i) < 0x80)
            put(byte(i));
        else if (byte(i) < 0xE0) {
            put((byte(i) & 0x1FU) << 6 | (byte(i + 1) & 0x3FU));
            i += 1;
        } else {
            put((byte(i) & 0x0FU) << 12 | (byte(i + 1) & 0x3FU) << 6 | (byte(i + 2) & 0x3FU));
            i += 2;
        }
    }
    return out;
}

namespace {

/// CRC-32 of ZIP: reflected polynomial 0xEDB88320.
std::uint32_t crc32(const std::string& bytes) {
    std::uint32_t crc = 0xFFFFFFFF;
    for (const char c : bytes) {
        crc ^= static_cast<unsigned char>(c);
        for (int bit = 0; bit < 8; ++bit)
            crc = crc >> 1 ^ (0xEDB88320U & (0U - (crc & 1U)));
    }
    return ~crc;
}

/// The fields that the local and the central header share: from "version needed" to the lengths.
std::string entry_fields(const std::string& name, const std::string& data) {
    const auto size = static_cast<std::uint32_t>(data.size());
    const std::string date = little_endian(0x5821, 2); // 2024-01-01
    return little_endian(20, 2) + little_endian(0, 2) + little_endian(0, 2) + little_endian(0, 2)
           + date + little_endian(crc32(data), 4) + little_endian(size, 4) + little_endian(size, 4)
           + little_endian(static_cast<std::uint32_t>(name.size()), 2) + little_endian(0, 2);
}

} // namespace

std::string stored_zip(const std::vector<std::pair<std::string, std::string>>& entries) {
    std::string out, directory;
    for (const auto& [name, data] : entries) {
        directory += "PK\x01\x02" + little_endian(20, 2) + entry_fields(name, data)
                     + little_endian(0, 2) + little_endian(0, 2) + little_endian(0, 2)
                     + little_endian(0, 4)
                     + little_endian(static_cast<std::uint32_t>(out.size()), 4) + name;
        out += "PK\x03\x04" + entry_fields(name, data) + name + data;
    }
    const auto count = static_cast<std::uint32_t>(entries.size());
    const auto start = static_cast<std::uint32_t>(out.size());
    return out + directory + "PK\x05\x06" + little_endian(0, 4) + little_endian(count, 2)
           + little_endian(count, 2)
           + little_endian(static_cast<std::uint32_t>(directory.size()), 4)
           + little_endian(start, 4) + little_endian(0, 2);
}

std::string container(const std::string& path, const std::string& media_type) {
    return "<?xml version=\"1.0\"?><container><rootfiles><rootfile full-path=\"" + path + "\""
           + (media_type.empty() ? "" : " media-type=\"" + media_type + "\"")
           + "/></rootfiles></container>";
}

} // namespace support
