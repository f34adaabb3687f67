// The quick reader of plain XML against expat (libexpat.github.io): what it accepts, expat accepts
// with the same events; what it is not made for, it passes on.

#include <support/errors.hpp>
#include <support/scores.hpp>
#include <support/xml_events.hpp>

using support::events_of;
using support::plain_events_of;

TEST_CASE("Plain documents give expat's events") {
    const std::string document = GENERATE(values<const char*>(
        {"<a/>", "<a></a>", "<a b='1' c=\"2\"/>", "<a b = '1'\n c='2' ></a >", "\xEF\xBB\xBF<a/>",
         "<?xml version=\"1.0\"?><a/>",
         "<?xml version='1.0' encoding='UTF-8' standalone='no' ?>\n<a/>\n",
         "<!-- x --><a/><!-- - y --><?p i?>", "<?abc d?><a/><?Xml-x?>",
         "<!--<b>&]]>--><a><b>t</b></a>", "<a>1 &lt; 2 &amp; &#228;&#x1D12A;</a>",
         // The first and last characters of each length in UTF-8.
         "<a>&#127;&#128;&#2047;&#2048;&#65533;&#65536;&#1114111;</a>",
         "<a>&#39;&#x19AF;&#xaf9;</a>", // the last of each kind of digit
         "<a b='&quot;&apos;&#10;x\ty\nz\r\nw'/>", "<a>one\r\ntwo\rthree</a>", "<a>é♭𝄪 ]] ]></a>",
         "<é/>", "<a é='1'/>", "<a b='é>\"'/>", "<a b=\"'\"/>", "<a><b/>t<c>u</c>v</a>",
         "<a:b.c-d_e/>", "<a>\t \n</a>", "<!DOCTYPE a><a/>", "<!DOCTYPE a SYSTEM 'x'><a/>",
         "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 3.1 Partwise//EN\" "
         "\"http://www.musicxml.org/dtds/partwise.dtd\">\n<a/>"}));
    CAPTURE(document);
    const auto plain = plain_events_of(document);
    if (document.find("é/") == std::string::npos && document.find("é=") == std::string::npos)
        REQUIRE(plain);
    CHECK(events_of(document));
    if (plain)
        CHECK(*plain == *events_of(document));
}

TEST_CASE("What expat refuses is never taken for plain") {
    const std::string document = GENERATE(values<const char*>({"",
                                                               " ",
                                                               "<a>",
                                                               "</a>",
                                                               "<a></b>",
                                                               "<a></ab>",
                                                               "<a/><b/>",
                                                               "<a/>x",
                                                               "x<a/>",
                                                               "<?x?y?><a/>",
                                                               "<a b/>",
                                                               "<a b=1/>",
                                                               "<a b='1'c='2'/>",
                                                               "<a b='1' b='2'/>",
                                                               "<a b='<'/>",
                                                               "<a b='&'/>",
                                                               "<a b='1/>",
                                                               "<a>&</a>",
                                                               "<a>&b;</a>",
                                                               "<a>&amp</a>",
                                                               "<a>]]></a>",
                                                               "<a>&#0;</a>",
                                                               "<a>&#x110000;</a>",
                                                               "<a>&#xD800;</a>",
                                                               "<a>&#;</a>",
                                                               "<a>&#99999999999999999999;</a>",
                                                               "<a>\x01</a>",
                                                               "<a>\x7F\x80</a>",
                                                               "<a>\xC0\x80</a>",
                                                               "<a>\xE0\x80\x80</a>",
                                                               "<a>\xED\xA0\x80</a>",
                                                               "<a>\xEF\xBF\xBF</a>",
                                                               "<a>\xF4\x90\x80\x80</a>",
                                                               "<a>\xC3</a>",
                                                               "<a><!-- -- --></a>",
                                                               "<a><!-- --->",
                                                               "<a><!--></a>",
                                                               "<a><?xml?></a>",
                                                               "<a/><?XmL x?>",
                                                               " <?xml version='1.0'?><a/>",
                                                               "<?xml encoding='UTF-8'?><a/>",
                                                               "<a/><!DOCTYPE a>",
                                                               "<!DOCTYPE a><!DOCTYPE a><a/>",
                                                               "<!DOCTYPE><a/>",
                                                               "<1/>",
                                                               "<a -b='1'/>",
                                                               "< a/>",
                                                               "<a",
                                                               "<a b",
                                                               "<a b=",
                                                               "<a b='",
                                                               "<a><",
                                                               "<a></",
                                                               "<a></a",
                                                               "<a><!",
                                                               "<a><!-",
                                                               "<a><?",
                                                               "<a>&#",
                                                               "<a>&#x"}));
    CAPTURE(document);
    CHECK_FALSE(events_of(document));
    CHECK_FALSE(plain_events_of(document));
    CHECK_FALSE(plain_events_of(std::string("<a>\0</a>", 8)));
}

TEST_CASE("What is not plain is passed on") {
    for (const char* document :
         {"<a><![CDATA[x]]></a>", "<!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>",
          "<?xml version='1.0' encoding='ISO-8859-1'?><a/>", "<?xml version='1.1'?><a/>"})
        CHECK_FALSE(plain_events_of(document));
    const std::string score =
        support::score({support::note("D", 4, "", "<lyric><text>la &amp; lu</text></lyric>")});
    REQUIRE(plain_events_of(score));
    CHECK(*plain_events_of(score) == *events_of(score));
}

TEST_CASE("A score with one byte damaged is told alike by both readers") {
    const std::string score = support::score({support::attributes() + support::note("D", 4)});
    for (std::size_t at = 0; at < score.size(); ++at)
        for (const char c : {'<', '>', '&', '"', '/', ' ', ']', '\x01', '\xFF', '-'}) {
            std::string damaged = score;
            damaged[at] = c;
            const auto plain = plain_events_of(damaged);
            if (plain && plain != events_of(damaged))
                FAIL("they differ at byte " << at << " made " << static_cast<int>(c));
        }
    SUCCEED();
}
