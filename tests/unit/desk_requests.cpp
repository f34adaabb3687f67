// Which requests are the desk's own, and what names of files it takes.

#include <sectio/base/text_cursor.hpp>
#include <sectio/desk/connections.hpp>
#include <sectio/desk/request.hpp>

#include <catch2/catch.hpp>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <set>

using namespace sectio::desk;

namespace {

const std::string secret = "0123456789abcdef";

Request own_request() {
    Request request;
    request.method = "GET";
    request.path = "/" + secret + "/job";
    request.host = "127.0.0.1:7312";
    return request;
}

bool admitted(const Request& request) {
    return Gate(7312, secret).admitted(request).has_value();
}

} // namespace

TEST_CASE("The desk's own requests are admitted, and say what stands after the secret") {
    Request request = own_request();
    CHECK(Gate(7312, secret).admitted(request) == "job");
    request.path = "/" + secret + "/";
    CHECK(Gate(7312, secret).admitted(request) == "");
    request.origin = "http://127.0.0.1:7312";
    request.site = "same-origin";
    CHECK(admitted(request));
    request.site = "none"; // an address that was typed, or opened by the desktop
    CHECK(admitted(request));
    CHECK(Gate(7312, secret).address() == "http://127.0.0.1:7312/" + secret + "/");
}

TEST_CASE("A request without the secret, or of another host, origin or site, is not admitted") {
    const auto with = [](auto change) {
        Request request = own_request();
        change(request);
        return admitted(request);
    };
    const std::vector<std::string> paths{"/",
                                         "",
                                         "/" + secret,
                                         secret + "/",
                                         "/" + secret.substr(1) + "/",
                                         "/" + secret + "0/",
                                         "//" + secret + "/",
                                         "/0123456789ABCDEF/",
                                         "/job"};
    for (const std::string& path : paths)
        CHECK_FALSE(with([&](Request& r) { r.path = path; }));
    for (const char* host : {"localhost:7312", "127.0.0.1", "127.0.0.1:7313", "evil.example", ""})
        CHECK_FALSE(with([&](Request& r) { r.host = host; }));
    CHECK_FALSE(with([](Request& r) { r.host.reset(); }));
    for (const char* origin : {"null", "", "http://evil.example", "https://127.0.0.1:7312",
                               "http://127.0.0.1:73120", "http://localhost:7312"})
        CHECK_FALSE(with([&](Request& r) { r.origin = origin; }));
    for (const char* site : {"cross-site", "same-site", ""})
        CHECK_FALSE(with([&](Request& r) { r.site = site; }));
    Request framed = own_request();
    framed.site = "same-site"; // the page's frame, from the page's port
    CHECK(Gate(7312, secret, true).admitted(framed));
    framed.site = "cross-site";
    CHECK_FALSE(Gate(7312, secret, true).admitted(framed));
}

TEST_CASE("A file that was handed over keeps its name, without what could lead elsewhere") {
    CHECK(safe_file_name("my zither.toml") == "my zither.toml");
    CHECK(safe_file_name("Nevâ, slow.wav") == "Nevâ, slow.wav");
    CHECK(safe_file_name("../../etc/passwd") == "passwd");
    CHECK(safe_file_name("C:\\notes\\a.wav") == "a.wav");
    CHECK(safe_file_name("-rf") == "_-rf");
    CHECK(safe_file_name("..") == "_..");
    CHECK(safe_file_name(".profile") == "_.profile");
    CHECK(safe_file_name("a/") == "_");
    CHECK(safe_file_name("") == "_");
    CHECK(safe_file_name("a\nb\x7F.csv") == "a_b_.csv");
    CHECK(safe_file_name("a\xFF.csv") == "a_.csv");
    CHECK(safe_file_name(std::string("a\0b", 3)) == "a_b");
}

TEST_CASE("A long name is cut between characters and keeps its ending") {
    for (std::size_t length = 50; length < 70; ++length) {
        std::string name;
        for (std::size_t i = 0; i < length; ++i)
            name += "â"; // two bytes
        const std::string safe = safe_file_name(name + ".toml");
        INFO(safe);
        CHECK(safe.size() <= 120);
        CHECK(safe.size() >= std::min<std::size_t>(2 * length, 119));
        CHECK(safe.ends_with(".toml"));
        CHECK_NOTHROW(sectio::TextCursor(safe, {}));
    }
}

TEST_CASE("Limit: of as many connections as there may be, the one idle longest is shut down") {
    constexpr std::size_t most = 3;
    Connections connections(most);
    std::array<std::array<int, 2>, 5> pairs;
    for (auto& pair : pairs)
        REQUIRE(socketpair(AF_UNIX, SOCK_STREAM, 0, pair.data()) == 0);
    const auto shut = [&](std::size_t i) {
        char byte = 0;
        return recv(pairs[i][1], &byte, 1, MSG_DONTWAIT) == 0;
    };
    connections.opened(pairs[0][0]);
    connections.asked(pairs[0][0]);
    connections.opened(pairs[1][0]);
    CHECK_FALSE(shut(1));
    connections.opened(pairs[2][0]);
    CHECK(shut(1)); // the first is being answered
    connections.closed(pairs[1][0]);
    connections.answered(pairs[0][0]);
    connections.opened(pairs[3][0]);
    CHECK(shut(2)); // it was last heard of before the first
    CHECK_FALSE(shut(0));
    connections.opened(pairs[4][0]); // before the server has closed the one that was shut down
    CHECK(shut(0));
    CHECK_FALSE(shut(3));
    for (const auto& pair : pairs)
        for (const int socket : pair)
            close(socket);
}

TEST_CASE("Secrets are long, hexadecimal and never twice the same") {
    std::set<std::string> seen;
    for (int i = 0; i < 100; ++i) {
        const std::string digits = random_digits(16);
        CHECK(digits.size() == 32);
        CHECK(digits.find_first_not_of("0123456789abcdef") == std::string::npos);
        CHECK(seen.insert(digits).second);
    }
}
