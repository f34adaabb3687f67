#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/score/plain_bytes.hpp>
#include <sectio/score/xml.hpp>

#include <algorithm>
#include <deque>
#include <vector>

namespace sectio::score {

namespace {

class PlainReading : public XmlCursor, private PlainBytes {
  public:
    PlainReading(const std::string& bytes, XmlHandler& handler)
        : PlainBytes(bytes), handler_(handler) {}

    void run() {
        at_ = without_byte_order_mark({at_, left()}).data();
        declaration();
        misc(true);
        require(*at_ == '<' && plain::is(at_[1], plain::name_start));
        tag();
        while (!open_.empty())
            content();
        misc(false);
        require(at_ == end_);
    }

    /// Errors are told by read_xml(), with their places.
    Place place() const override { return {}; }

  private:
    /// XMLDecl: version 1.0, no encoding or UTF-8.
    void declaration() {
        if (!std::string_view(at_, left()).starts_with("<?xml") || !plain::is(at_[5], plain::space))
            return;
        at_ += 5;
        pseudo_attribute("version", {"1.0"}, true);
        pseudo_attribute("encoding", {"UTF-8", "utf-8"}, false);
        pseudo_attribute("standalone", {"yes", "no"}, false);
        spaces();
        expect("?>");
    }

    void pseudo_attribute(std::string_view wanted, std::initializer_list<std::string_view> values,
                          bool needed) {
        const char* from = at_;
        if (!spaces() || !accept(wanted)) {
            require(!needed);
            at_ = from;
            return;
        }
        spaces();
        expect("=");
        spaces();
        const std::string_view found = literal();
        require(std::find(values.begin(), values.end(), found) != values.end());
    }

    /// Comments, instructions and white space outside the root, and before it the document type.
    void misc(bool before) {
        for (;;) {
            spaces();
            if (accept("<!--"))
                comment();
            else if (accept("<?"))
                instruction();
            else if (before && accept("<!DOCTYPE"))
                document_type(before);
            else
                return;
        }
    }

    /// Without an internal subset; the address is not looked at.
    void document_type(bool& allowed) {
        allowed = false;
        require(spaces());
        name();
        const bool apart = spaces();
        if (accept("PUBLIC")) {
            require(apart && spaces());
            public_literal();
            require(spaces());
            literal();
        } else if (accept("SYSTEM")) {
            require(apart && spaces());
            literal();
        }
        spaces();
        expect(">");
    }

    /// PubidLiteral of XML 1.0, production 13, as the DTDs of MusicXML have it.
    void public_literal() {
        for (const char c : literal())
            require(plain::is(c, plain::name_part) || c == ' ' || c == '/' || c == '+');
    }

    /// Text up to the next tag or comment, and that.
    void content() {
        for (;;) {
            while (plain::is(*at_, plain::text))
                ++at_;
            if (*at_ == '<')
                break;
            if (*at_ == '&') {
                reference();
                simple_ = false;
            } else if (*at_ == ']') {
                require(!std::string_view(at_, left()).starts_with("]]>"));
                ++at_;
            } else {
                beyond_ascii();
            }
        }
        markup();
    }

    void markup() {
        if (at_[1] == '/')
            return end_tag();
        if (plain::is(at_[1], plain::name_start))
            return tag();
        require(!wanted_); // the text goes on after it
        if (accept("<!--"))
            return comment();
        expect("<?");
        instruction();
    }

    void tag() {
        const char* from = at_++;
        const std::string_view tag_name = name();
        const bool empty = attributes();
        require(open_.size() < limits::xml_nesting);
        wanted_ =
            handler_.start({tag_name, XmlAttributes(attributes_), offset(from), false}, *this);
        text_from_ = at_;
        simple_ = true;
        if (!empty)
            return open_.push_back(tag_name);
        handler_.end(offset(at_), {}, *this);
        wanted_ = false;
    }

    /// Up to the end of the tag; whether that was />.
    bool attributes() {
        attributes_.clear();
        decoded_.clear();
        for (;;) {
            const bool apart = spaces();
            if (*at_ == '>') {
                ++at_;
                return false;
            }
            if (accept("/>"))
                return true;
            require(apart);
            const std::string_view attribute = name();
            require(!XmlAttributes(attributes_).find(attribute));
            spaces();
            expect("=");
            spaces();
            attributes_.push_back({attribute, attribute_value()});
        }
    }

    std::string_view attribute_value() {
        const char quote = *at_;
        require(quote == '"' || quote == '\'');
        const char* from = ++at_;
        bool simple = true;
        while (*at_ != quote) {
            if (plain::is(*at_, plain::value) || *at_ == '"' || *at_ == '\'') {
                ++at_;
                continue;
            }
            simple = false;
            if (*at_ == '&')
                reference();
            else if (plain::is(*at_, plain::space))
                ++at_;
            else
                beyond_ascii();
        }
        const std::string_view raw(from, static_cast<std::size_t>(at_++ - from));
        return simple ? raw : kept(decoded(raw, true));
    }

    /// Values that are not in the document as they are; a deque's strings stay where they are.
    std::string_view kept(std::string value) { return decoded_.emplace_back(std::move(value)); }

    void end_tag() {
        const char* from = at_;
        at_ += 2;
        expect(open_.back());
        spaces();
        expect(">");
        open_.pop_back();
        if (!wanted_)
            return handler_.end(offset(from), {}, *this);
        wanted_ = false;
        const std::string_view raw(text_from_, static_cast<std::size_t>(from - text_from_));
        if (simple_ && raw.find('\r') == std::string_view::npos)
            return handler_.end(offset(from), raw.substr(0, limits::score_text_bytes), *this);
        const std::string text = decoded(raw, false);
        handler_.end(offset(from), std::string_view(text).substr(0, limits::score_text_bytes),
                     *this);
    }

    XmlHandler& handler_;
    std::vector<std::string_view> open_;
    std::vector<XmlAttribute> attributes_;
    std::deque<std::string> decoded_;
    const char* text_from_ = nullptr;
    bool wanted_ = false; ///< the text since the last start tag
    bool simple_ = true;  ///< and it stands in the document as it is
};

} // namespace

bool read_plain_xml(const std::string& bytes, XmlHandler& handler) {
    try {
        PlainReading(bytes, handler).run();
        return true;
    } catch (const NotPlain&) {
        return false;
    }
}

} // namespace sectio::score
