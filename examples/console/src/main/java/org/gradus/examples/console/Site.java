package org.gradus.examples.console;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.gradus.diagnostic.GradusException;
import org.gradus.history.Json;
import org.gradus.words.Language;

/**
 * Answers the browser: the files of the page, tests as JSON, and a stream of server-sent events for
 * each test. Requests that change something carry a header that no other site can make a browser
 * send, and the name of the host is checked, so that another page in the same browser can neither
 * read nor change a test. On another address than loopback every request needs the token.
 */
final class Site implements AutoCloseable {

  private static final int LONGEST_BODY = 64 * 1024;
  private static final long LOOK_EVERY_MILLIS = 200;
  private static final int LOOKS_TO_A_SIGN_OF_LIFE = 10;
  private static final Map<String, String> FILES =
      Map.of(
          "/", "index.html",
          "/style.css", "style.css",
          "/app.js", "app.js",
          "/page.js", "page.js",
          "/start.js", "start.js",
          "/live.js", "live.js",
          "/entry.js", "entry.js",
          "/chart.js", "chart.js",
          "/sound.js", "sound.js");

  private final HttpServer server;
  private final ExecutorService threads;
  private final Tests tests;
  private final Optional<String> token;
  private final boolean loopback;
  private volatile boolean closed;

  private Site(HttpServer server, Tests tests, Optional<String> token, boolean loopback) {
    this.server = server;
    this.tests = tests;
    this.token = token;
    this.loopback = loopback;
    this.threads =
        Executors.newCachedThreadPool(
            task -> {
              Thread made = new Thread(task, "console");
              made.setDaemon(true);
              return made;
            });
  }

  /**
   * Opens the site.
   *
   * @param address where; port 0 takes any that is free
   * @param token what every request has to know, if anything
   * @throws IOException when the port is taken
   */
  static Site open(InetSocketAddress address, Tests tests, Optional<String> token)
      throws IOException {
    HttpServer server = HttpServer.create(address, 0);
    Site site = new Site(server, tests, token, address.getAddress().isLoopbackAddress());
    server.setExecutor(site.threads);
    server.createContext("/", site::answer);
    server.start();
    return site;
  }

  int port() {
    return server.getAddress().getPort();
  }

  @Override
  public void close() {
    closed = true;
    server.stop(0);
    threads.shutdownNow();
    tests.close();
  }

  private void answer(HttpExchange exchange) throws IOException {
    try (exchange) {
      try {
        refuseStrangers(exchange);
        route(exchange);
      } catch (Refusal refused) {
        send(exchange, refused.status(), Json.write(Map.of("error", refused.in(words(exchange)))));
      } catch (GradusException refused) {
        send(exchange, 422, Json.write(Map.of("error", words(exchange).say(refused))));
      } catch (RuntimeException unforeseen) {
        send(
            exchange,
            500,
            Json.write(Map.of("error", words(exchange).say("Unexpected error: {0}", unforeseen))));
      }
    }
  }

  private void refuseStrangers(HttpExchange exchange) {
    String host = Optional.ofNullable(exchange.getRequestHeaders().getFirst("Host")).orElse("");
    String name = host.replaceAll(":[0-9]+$", "");
    if (loopback && !List.of("localhost", "127.0.0.1", "[::1]").contains(name)) {
      throw new Refusal(403, "This console answers on loopback only.");
    }
    if (exchange.getRequestMethod().equals("POST")
        && exchange.getRequestHeaders().getFirst("X-Gradus") == null) {
      throw new Refusal(403, "Entries are taken from the console's own page only.");
    }
    if (token.isPresent() && !knowsToken(exchange, token.get())) {
      throw new Refusal(401, "Open the address that the console printed, with its token.");
    }
  }

  // The first request brings the token in its address and gets a cookie for the others.
  private static boolean knowsToken(HttpExchange exchange, String token) {
    String query = Optional.ofNullable(exchange.getRequestURI().getRawQuery()).orElse("");
    boolean inAddress =
        new FormFields(query).maybe("token").filter(word -> same(word, token)).isPresent();
    if (inAddress) {
      exchange
          .getResponseHeaders()
          .add("Set-Cookie", "gradus=" + token + "; HttpOnly; SameSite=Strict; Path=/");
    }
    String cookies =
        Optional.ofNullable(exchange.getRequestHeaders().getFirst("Cookie")).orElse("");
    return inAddress
        || java.util.Arrays.stream(cookies.split(";", -1))
            .anyMatch(cookie -> same(cookie.strip(), "gradus=" + token));
  }

  private static boolean same(String given, String wanted) {
    return MessageDigest.isEqual(
        given.getBytes(StandardCharsets.UTF_8), wanted.getBytes(StandardCharsets.UTF_8));
  }

  private void route(HttpExchange exchange) throws IOException {
    String path = exchange.getRequestURI().getPath();
    boolean post = exchange.getRequestMethod().equals("POST");
    if (FILES.containsKey(path)) {
      file(exchange, FILES.get(path));
    } else if (path.equals("/api/words")) {
      send(exchange, 200, Json.write(words(words(exchange))));
    } else if (path.equals("/api/protocols")) {
      send(exchange, 200, Json.write(tests.protocols(locale(exchange))));
    } else if (path.equals("/api/tests")) {
      send(
          exchange,
          200,
          Json.write(
              post
                  ? Map.of("id", tests.create(body(exchange), locale(exchange)))
                  : tests.list(words(exchange))));
    } else if (path.startsWith("/api/tests/")) {
      test(exchange, path.substring("/api/tests/".length()).split("/", -1), post);
    } else {
      throw new Refusal(404, "There is nothing at {0}.", path);
    }
  }

  private void test(HttpExchange exchange, String[] way, boolean post) throws IOException {
    LiveTest test = tests.test(way[0]);
    Locale locale = locale(exchange);
    String part = way.length > 1 ? way[1] : "";
    switch (part) {
      case "" -> send(exchange, 200, post ? test.act(body(exchange), locale) : test.state(locale));
      case "stream" -> stream(exchange, test, locale);
      case "record" -> {
        exchange
            .getResponseHeaders()
            .add("Content-Disposition", "attachment; filename=\"" + way[0] + ".jsonl\"");
        send(exchange, 200, "application/x-ndjson", test.record());
      }
      case "report" -> {
        String query = Optional.ofNullable(exchange.getRequestURI().getRawQuery()).orElse("");
        boolean cleared = new FormFields(query).maybe("cleared").isPresent();
        send(exchange, 200, "text/html; charset=utf-8", test.report(cleared, locale));
      }
      default -> throw new Refusal(404, "A test has no {0}.", part);
    }
  }

  private static Locale locale(HttpExchange exchange) {
    String query = Optional.ofNullable(exchange.getRequestURI().getRawQuery()).orElse("");
    return Locale.forLanguageTag(new FormFields(query).maybe("language").orElse("en"));
  }

  private static PageWords words(HttpExchange exchange) {
    return PageWords.in(Language.of(locale(exchange)));
  }

  // The sentences of the page, and the languages that it can be in under their own names.
  private static Map<String, Object> words(PageWords words) {
    return Map.of(
        "language",
        words.language().locale().getLanguage(),
        "words",
        words.own(),
        "languages",
        Language.all().stream()
            .map(one -> Map.of("code", one.getLanguage(), "name", one.getDisplayLanguage(one)))
            .toList());
  }

  private static FormFields body(HttpExchange exchange) throws IOException {
    byte[] bytes = exchange.getRequestBody().readNBytes(LONGEST_BODY + 1);
    if (bytes.length > LONGEST_BODY) {
      throw new Refusal(413, "That is too long.");
    }
    return new FormFields(new String(bytes, StandardCharsets.UTF_8));
  }

  // Tells the page of each change, and now and then that the console is still there.
  private void stream(HttpExchange exchange, LiveTest test, Locale locale) throws IOException {
    secure(exchange);
    exchange.getResponseHeaders().add("Content-Type", "text/event-stream");
    exchange.sendResponseHeaders(200, 0);
    try (OutputStream out = exchange.getResponseBody()) {
      String told = "";
      int looks = 0;
      while (!closed) {
        String now = test.told();
        if (!now.equals(told)) {
          told = now;
          out.write(("data: " + test.state(locale) + "\n\n").getBytes(StandardCharsets.UTF_8));
          out.flush();
        } else if (++looks % LOOKS_TO_A_SIGN_OF_LIFE == 0) {
          String alive = "event: alive\ndata: " + test.seconds() + "\n\n";
          out.write(alive.getBytes(StandardCharsets.UTF_8));
          out.flush();
        }
        Thread.sleep(LOOK_EVERY_MILLIS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (IOException gone) {
      return; // The window was closed; the test goes on.
    }
  }

  private static void file(HttpExchange exchange, String name) throws IOException {
    String type =
        name.endsWith(".js")
            ? "text/javascript; charset=utf-8"
            : name.endsWith(".css") ? "text/css; charset=utf-8" : "text/html; charset=utf-8";
    try (InputStream file = Site.class.getResourceAsStream(name)) {
      if (file == null) {
        throw new Refusal(404, "The console lacks its file {0}.", name);
      }
      send(exchange, 200, type, new String(file.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  private static void send(HttpExchange exchange, int status, String json) throws IOException {
    send(exchange, status, "application/json", json);
  }

  private static void send(HttpExchange exchange, int status, String type, String text)
      throws IOException {
    secure(exchange);
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    exchange.getResponseHeaders().add("Content-Type", type);
    exchange.sendResponseHeaders(status, bytes.length);
    exchange.getResponseBody().write(bytes);
  }

  private static void secure(HttpExchange exchange) {
    exchange.getResponseHeaders().add("Cache-Control", "no-store");
    exchange.getResponseHeaders().add("X-Content-Type-Options", "nosniff");
    exchange.getResponseHeaders().add("Referrer-Policy", "no-referrer");
    exchange
        .getResponseHeaders()
        .add(
            "Content-Security-Policy",
            "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline';"
                + " connect-src 'self'; base-uri 'none'; form-action 'none';"
                + " frame-ancestors 'none'");
  }
}
