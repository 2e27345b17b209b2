#include "desk/desk_server.h"

#include <httplib.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <random>
#include <thread>

#include "base/problems.h"
#include "desk/desk_parts.h"

namespace dapple {

namespace {

constexpr size_t kMostBytes = 4U << 20U;  // of a request
constexpr double kBeat = 5;               // s; a page that hears nothing for longer is cut off
constexpr double kLookOutside = 1;        // s

// No script, style, picture or connection from anywhere else.
constexpr const char* kPolicy =
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

// A lamp and its beam.
constexpr const char* kIcon =
    "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'>"
    "<path d='M4 8 16 2v12z' fill='#ffb27a'/><circle cx='4' cy='8' r='3.5' fill='#ff6b4a'/></svg>";

// 128 bits that nobody can guess, in hexadecimal.
std::string make_token() {
    std::random_device device;
    std::string token;
    for (int i = 0; i < 4; ++i) {
        std::array<char, 9> word{};
        std::snprintf(word.data(), word.size(), "%08x", static_cast<unsigned>(device()));
        token += word.data();
    }
    return token;
}

// Not a number for what is none.
double share_of(const std::string& text) {
    double share = NAN;
    std::from_chars(text.data(), text.data() + text.size(), share);
    return share;
}

}  // namespace

struct DeskServer::Parts {
    explicit Parts(Desk& of) : desk(of) {}

    Desk& desk;
    httplib::Server server;
    std::string token = make_token();
    std::string host;  // "127.0.0.1:40123"
    std::string address;

    bool may_pass(const httplib::Request& request) const {
        const std::string asked = request.get_header_value("Host");
        const std::string local = "localhost" + host.substr(host.find(':'));
        if (asked != host && asked != local) return false;
        const std::string origin = request.get_header_value("Origin");
        if (!origin.empty() && origin != "http://" + asked) return false;
        return request.path.starts_with("/" + token + "/");
    }

    std::string at(const std::string& name) const { return "/" + token + "/" + name; }

    void add_text(const std::string& name, const char* text, const char* type) {
        server.Get(at(name), [text, type](const httplib::Request&, httplib::Response& response) {
            response.set_content(text, type);
        });
    }
    void add_page();
    void add_news();
    void add_picture();
    void add_questions();
    void add_seek();
    void add_acts();
    void add_guard();
};

void DeskServer::Parts::add_guard() {
    server.set_payload_max_length(kMostBytes);
    server.set_pre_routing_handler(
        [this](const httplib::Request& request, httplib::Response& response) {
            response.set_header("Content-Security-Policy", kPolicy);
            response.set_header("X-Content-Type-Options", "nosniff");
            response.set_header("Referrer-Policy", "no-referrer");
            response.set_header("Cache-Control", "no-store");
            if (may_pass(request)) return httplib::Server::HandlerResponse::Unhandled;
            response.status = 403;
            response.set_content("Open the address that dapple desk has printed.\n", "text/plain");
            return httplib::Server::HandlerResponse::Handled;
        });
}

void DeskServer::Parts::add_page() {
    add_text("", kDeskHtml, "text/html; charset=utf-8");
    add_text("icon.svg", kIcon, "image/svg+xml");
    add_text("desk.css", kDeskStyle, "text/css; charset=utf-8");
    add_text("desk.js", kDeskCode, "text/javascript; charset=utf-8");
}

void DeskServer::Parts::add_news() {
    server.Get(at("news"), [this](const httplib::Request&, httplib::Response& response) {
        response.set_chunked_content_provider(
            "text/event-stream",
            [this, seen = uint64_t{0}](size_t, httplib::DataSink& sink) mutable {
                std::string lines = desk.news().wait_for_news(seen, kBeat);
                if (desk.news().is_closed()) return false;
                if (lines.empty()) lines = ": still here\n\n";
                return sink.write(lines.data(), lines.size());
            });
    });
}

void DeskServer::Parts::add_picture() {
    server.Get(at("picture.png"), [this](const httplib::Request&, httplib::Response& response) {
        response.set_content(desk.picture(), "image/png");
    });
}

// What may be asked about the newest film.
void DeskServer::Parts::add_questions() {
    const auto answer = [](httplib::Response& response, std::string text, const char* type) {
        response.status = text.empty() ? 404 : 200;
        response.set_content(std::move(text), type);
    };
    server.Get(at("light"), [=, this](const httplib::Request&, httplib::Response& response) {
        answer(response, desk.film().light(), "application/octet-stream");
    });
    server.Get(at("judge"), [=, this](const httplib::Request&, httplib::Response& response) {
        answer(response, desk.film().judge(), "application/json");
    });
    server.Get(at("meter"),
               [=, this](const httplib::Request& request, httplib::Response& response) {
                   const double x = share_of(request.get_param_value("x"));
                   const double y = share_of(request.get_param_value("y"));
                   answer(response, desk.film().meter_at(x, y), "application/json");
               });
}

// Pictures of the places that a search has found.
void DeskServer::Parts::add_seek() {
    server.Get(at("seek.jpg"),
               [this](const httplib::Request& request, httplib::Response& response) {
                   const int number = std::atoi(request.get_param_value("n").c_str());
                   response.set_content(desk.seek_picture(number), "image/jpeg");
               });
}

void DeskServer::Parts::add_acts() {
    server.Post(at("act"), [this](const httplib::Request& request, httplib::Response& response) {
        // Other pages can send forms without asking, but not JSON.
        if (request.get_header_value("Content-Type") != "application/json") {
            response.status = 415;
            return;
        }
        const std::string trouble = desk.act(request.body);
        response.status = trouble.empty() ? 200 : 409;
        response.set_header("Set-Version", std::to_string(desk.version()));
        response.set_content(trouble, "text/plain; charset=utf-8");
    });
}

DeskServer::DeskServer(Desk& desk, int port) : parts_(std::make_unique<Parts>(desk)) {
    httplib::Server& server = parts_->server;
    int bound = port;
    if (port == 0) {
        bound = server.bind_to_any_port("127.0.0.1");
    } else if (!server.bind_to_port("127.0.0.1", port)) {
        bound = -1;
    }
    if (bound < 0) {
        throw FileError("port " + std::to_string(port),
                        "is taken by another program; leave --port out to use a free one");
    }
    parts_->host = "127.0.0.1:" + std::to_string(bound);
    parts_->address = "http://" + parts_->host + "/" + parts_->token + "/";
    parts_->add_guard();
    parts_->add_page();
    parts_->add_news();
    parts_->add_picture();
    parts_->add_questions();
    parts_->add_seek();
    parts_->add_acts();
}

DeskServer::~DeskServer() = default;

const std::string& DeskServer::address() const {
    return parts_->address;
}

void DeskServer::serve(const std::function<bool()>& should_end) {
    std::thread listening([this] { parts_->server.listen_after_bind(); });
    for (double since = 0; !should_end(); since += 0.1) {
        std::this_thread::sleep_for(std::chrono::milliseconds(100));
        if (since < kLookOutside) continue;
        parts_->desk.look_outside();
        since = 0;
    }
    parts_->desk.news().close();
    parts_->server.stop();
    listening.join();
}

}  // namespace dapple
