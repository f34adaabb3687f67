#include <sectio/base/limits.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/xml.hpp>

#ifndef XML_DTD
#define XML_DTD 1 // expat declares its protection against entity bombs only so
#endif
#include <expat.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <exception>
#include <memory>
#include <vector>

namespace sectio::score {

std::optional<std::string_view> XmlAttributes::find(std::string_view name) const {
    for (const XmlAttribute& attribute : attributes_)
        if (attribute.name == name)
            return attribute.value;
    return std::nullopt;
}

namespace {

// Expat 2.9 deprecates what it has of these without "64".
#if XML_MAJOR_VERSION > 2 || (XML_MAJOR_VERSION == 2 && XML_MINOR_VERSION >= 9)
constexpr auto line_number = XML_GetCurrentLineNumber64;
constexpr auto column_number = XML_GetCurrentColumnNumber64;
constexpr auto byte_index = XML_GetCurrentByteIndex64;
#else
constexpr auto line_number = XML_GetCurrentLineNumber;
constexpr auto column_number = XML_GetCurrentColumnNumber;
constexpr auto byte_index = XML_GetCurrentByteIndex;
#endif

/// Code points of the bytes 0x80 to 0x9F in windows-1252, -1 where it has none.
/// Source: WHATWG Encoding Standard, index-windows-1252; undefined bytes by Microsoft's table.
constexpr std::array<int, 32> windows1252_high{
    0x20AC, -1,     0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, -1,     0x017D, -1,     -1,     0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, -1,     0x017E, 0x0178};

bool same_letters(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
        return std::tolower(static_cast<unsigned char>(x))
               == std::tolower(static_cast<unsigned char>(y));
    });
}

/// One reading. Exceptions do not cross expat, which is C: they are kept and thrown again after it.
class XmlReading : public XmlCursor {
  public:
    XmlReading(std::string_view bytes, const std::string& source, XmlHandler& handler)
        : bytes_(bytes), source_(source), handler_(handler),
          parser_(XML_ParserCreate(nullptr), &XML_ParserFree) {
        if (!parser_)
            throw std::bad_alloc();
        XML_SetUserData(parser_.get(), this);
        XML_SetElementHandler(parser_.get(), on_start, on_end);
        XML_SetXmlDeclHandler(parser_.get(), on_declaration);
        XML_SetEntityDeclHandler(parser_.get(), on_entity);
        XML_SetExternalEntityRefHandler(parser_.get(), on_external);
        XML_SetUnknownEncodingHandler(parser_.get(), on_encoding, nullptr);
        XML_SetBillionLaughsAttackProtectionMaximumAmplification(parser_.get(),
                                                                 limits::xml_amplification);
        XML_SetBillionLaughsAttackProtectionActivationThreshold(parser_.get(),
                                                                limits::xml_free_bytes);
    }

    Encoding run() {
        // expat copies what it is given, so it gets the document piece by piece.
        constexpr std::size_t piece = std::size_t{1} << 16;
        for (std::size_t at = 0; at == 0 || at < bytes_.size(); at += piece) {
            const std::string_view next = bytes_.substr(at, piece);
            const XML_Bool last = at + piece >= bytes_.size() ? XML_TRUE : XML_FALSE;
            if (XML_Parse(parser_.get(), next.data(), static_cast<int>(next.size()), last)
                != XML_STATUS_OK)
                fail();
        }
        return encoding();
    }

    Place place() const override {
        return {source_, line_number(parser_.get()), column_number(parser_.get()) + 1};
    }

  private:
    [[noreturn]] void fail() const {
        if (caught_)
            std::rethrow_exception(caught_);
        const XML_Error code = XML_GetErrorCode(parser_.get());
        switch (code) {
        case XML_ERROR_AMPLIFICATION_LIMIT_BREACH:
            throw error(message::xml_entity_bomb, "", place(), limits::xml_amplification);
        case XML_ERROR_UNKNOWN_ENCODING:
        case XML_ERROR_INCORRECT_ENCODING:
            throw error(message::xml_encoding, declared_, place());
        case XML_ERROR_NO_MEMORY:
            throw std::bad_alloc();
        default:
            throw error(message::xml_not_well_formed, "", place(), XML_ErrorString(code));
        }
    }

    /// What expat settled on: its own rule (XML 1.0, appendix F) by the first bytes, then the
    /// declaration.
    Encoding encoding() const {
        const auto byte = [&](std::size_t i) {
            return i < bytes_.size() ? static_cast<unsigned char>(bytes_[i]) : 0xFFU;
        };
        if ((byte(0) == 0xFE && byte(1) == 0xFF) || byte(0) == 0)
            return Encoding::utf16_big;
        if ((byte(0) == 0xFF && byte(1) == 0xFE) || byte(1) == 0)
            return Encoding::utf16_little;
        if (same_letters(declared_, "ISO-8859-1"))
            return Encoding::latin1;
        if (same_letters(declared_, "US-ASCII"))
            return Encoding::ascii;
        return same_letters(declared_, "windows-1252") ? Encoding::windows1252 : Encoding::utf8;
    }

    std::size_t offset() const { return static_cast<std::size_t>(byte_index(parser_.get())); }

    /// Inside an entity, expat's place is that of the reference, which starts with `&`.
    bool tag_at(std::size_t at) const {
        return bytes_[at] == '<'
               || (bytes_[at] == 0 && at + 1 < bytes_.size() && bytes_[at + 1] == '<');
    }

    template <typename Deed>
    static void guarded(void* user, Deed deed) noexcept {
        auto& self = *static_cast<XmlReading*>(user);
        if (self.caught_)
            return;
        try {
            deed(self);
        } catch (...) {
            self.caught_ = std::current_exception();
            XML_StopParser(self.parser_.get(), XML_FALSE);
        }
    }

    static void on_start(void* user, const char* name, const char** attributes) {
        guarded(user, [&](XmlReading& self) {
            if (++self.depth_ > limits::xml_nesting)
                throw error(message::xml_too_deep, name, self.place(), limits::xml_nesting);
            const std::size_t at = self.offset();
            self.attributes_.clear();
            for (const char** pair = attributes; *pair != nullptr; pair += 2)
                self.attributes_.push_back({pair[0], pair[1]});
            self.listen(self.handler_.start(
                {name, XmlAttributes(self.attributes_), at, !self.tag_at(at)}, self));
        });
    }

    static void on_end(void* user, const char* /*name*/) {
        guarded(user, [&](XmlReading& self) {
            --self.depth_;
            self.handler_.end(self.offset(), self.text_, self);
            self.listen(false);
        });
    }

    /// Text is handed over only where it is wanted: most of a score is white space and names.
    void listen(bool wanted) {
        if (wanted || wanted_)
            text_.clear();
        if (wanted != wanted_)
            XML_SetCharacterDataHandler(parser_.get(), wanted ? on_text : nullptr);
        wanted_ = wanted;
    }

    static void on_text(void* user, const char* text, int length) {
        guarded(user, [&](XmlReading& self) {
            const std::size_t room = limits::score_text_bytes - self.text_.size();
            self.text_.append(text, std::min(room, static_cast<std::size_t>(length)));
        });
    }

    static void on_declaration(void* user, const char*, const char* encoding, int) {
        guarded(user,
                [&](XmlReading& self) { self.declared_ = encoding == nullptr ? "" : encoding; });
    }

    static void on_entity(void* user, const char* name, int, const char*, int, const char*,
                          const char*, const char*, const char*) {
        guarded(user, [&](XmlReading& self) {
            if (++self.entities_ > limits::xml_entities)
                throw error(message::xml_too_many_entities, name, self.place(),
                            limits::xml_entities);
        });
    }

    static int on_external(XML_Parser parser, const char* context, const char*, const char*,
                           const char*) {
        guarded(XML_GetUserData(parser), [&](XmlReading& self) {
            throw error(message::xml_external_entity, context == nullptr ? "" : context,
                        self.place());
        });
        return XML_STATUS_ERROR;
    }

    static int on_encoding(void*, const char* name, XML_Encoding* info) {
        if (!same_letters(name, "windows-1252"))
            return XML_STATUS_ERROR;
        for (int i = 0; i < 256; ++i)
            info->map[i] =
                i >= 0x80 && i < 0xA0 ? windows1252_high[static_cast<std::size_t>(i - 0x80)] : i;
        info->data = nullptr;
        info->convert = nullptr;
        info->release = nullptr;
        return XML_STATUS_OK;
    }

    std::string_view bytes_;
    const std::string& source_;
    XmlHandler& handler_;
    std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser_;
    std::exception_ptr caught_;
    std::string declared_, text_;
    std::vector<XmlAttribute> attributes_;
    std::size_t depth_ = 0, entities_ = 0;
    bool wanted_ = false;
};

} // namespace

Encoding read_xml(std::string_view bytes, const std::string& source, XmlHandler& handler) {
    if (bytes.size() > limits::score_bytes)
        throw error(message::score_too_large, "", Place{source}, limits::score_bytes >> 20);
    return XmlReading(bytes, source, handler).run();
}

} // namespace sectio::score
