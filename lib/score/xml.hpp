#pragma once
/// @file
/// Events of an XML document with their exact places in its bytes. The parser is expat, which
/// checks well-formedness (XML 1.0, fifth edition) and reads UTF-8, UTF-16, ISO-8859-1 and
/// US-ASCII; this file adds windows-1252 and the limits. Nothing outside the document is ever
/// fetched.

#include <sectio/base/error.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace sectio::score {

/// How a document stores its characters.
enum class Encoding { utf8, utf16_little, utf16_big, latin1, ascii, windows1252 };

/// The name by which an XML declaration calls it, such as "UTF-16".
std::string_view name(Encoding encoding);

/// `text` (UTF-8) in `encoding`; a character that it lacks becomes a numeric character reference,
/// so the result means the same between tags and in quoted values.
std::string encoded(std::string_view text, Encoding encoding);

/// One attribute of a start tag, its value as XML normalizes it; UTF-8.
struct XmlAttribute {
    std::string_view name, value;
};

/// The attributes of a start tag, valid while its event lasts.
class XmlAttributes {
  public:
    explicit XmlAttributes(std::span<const XmlAttribute> attributes) : attributes_(attributes) {}
    std::optional<std::string_view> find(std::string_view name) const;
    std::span<const XmlAttribute> all() const { return attributes_; }

  private:
    std::span<const XmlAttribute> attributes_;
};

/// Where the parser stands.
class XmlCursor {
  public:
    virtual ~XmlCursor() = default;
    /// Line and column of the present event.
    virtual Place place() const = 0;
};

/// One start tag.
struct XmlStart {
    std::string_view name; ///< as written, with its prefix
    XmlAttributes attributes;
    std::size_t offset; ///< byte of its `<`
    bool in_entity;     ///< it comes from an entity, so that no byte of the document is its own
};

/// Receives the events. An exception that it throws ends the reading and passes on.
class XmlHandler {
  public:
    virtual ~XmlHandler() = default;
    /// Answers whether the text up to the next tag is wanted.
    virtual bool start(const XmlStart& start, const XmlCursor& cursor) = 0;
    /// `offset` is the byte of the end tag's `<`; after an empty-element tag, the byte that follows
    /// it. `text` is the text since the last start tag, if it was wanted.
    virtual void end(std::size_t offset, std::string_view text, const XmlCursor& cursor) = 0;
};

/// Reads the whole of `bytes` and answers its encoding; `source` names it in errors. Takes any XML.
/// @throws Error xml_not_well_formed, xml_encoding, xml_entity_bomb, xml_external_entity,
///         xml_too_deep, xml_too_many_entities, with line and column
Encoding read_xml(std::string_view bytes, const std::string& source, XmlHandler& handler);

/// Reads the plain XML that nearly all scores are, several times faster: UTF-8, no internal subset
/// of a document type, no CDATA, no references but XML's own five and numbers. The events are those
/// of read_xml(). False where anything else is met, well-formed or not: the handler has then had
/// events of a part, and read_xml() must start again with another.
bool read_plain_xml(const std::string& bytes, XmlHandler& handler);

} // namespace sectio::score
