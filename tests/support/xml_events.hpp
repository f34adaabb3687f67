#pragma once
/// @file
/// The events of the two XML readers, written down to be compared.

#include <sectio/base/error.hpp>
#include <sectio/score/xml.hpp>

#include <fmt/format.h>

#include <optional>
#include <string>

namespace support {

/// Every tag with its place, attributes and text, a line each.
class XmlRecorder : public sectio::score::XmlHandler {
  public:
    bool start(const sectio::score::XmlStart& start, const sectio::score::XmlCursor&) override {
        events_ += fmt::format("<{}@{}", start.name, start.offset);
        for (const auto& [name, value] : start.attributes.all())
            events_ += fmt::format(" {}={};", name, value);
        events_ += start.in_entity ? " in entity\n" : "\n";
        return true;
    }
    void end(std::size_t offset, std::string_view text, const sectio::score::XmlCursor&) override {
        events_ += fmt::format(">@{} {}\n", offset, text);
    }
    const std::string& events() const { return events_; }

  private:
    std::string events_;
};

/// By expat; empty where it refuses.
inline std::optional<std::string> events_of(const std::string& bytes) {
    try {
        XmlRecorder recorder;
        sectio::score::read_xml(bytes, "xml", recorder);
        return recorder.events();
    } catch (const sectio::Error&) {
        return std::nullopt;
    }
}

/// By the reader of plain XML; empty where it passes the document on.
inline std::optional<std::string> plain_events_of(const std::string& bytes) {
    XmlRecorder recorder;
    if (!sectio::score::read_plain_xml(bytes, recorder))
        return std::nullopt;
    return recorder.events();
}

} // namespace support
