package org.gradus.examples.console;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.CookieManager;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Optional;
import org.gradus.bundled.Bundled;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Who may look and enter: without a browser. */
class SiteTest {

  @TempDir private Path folder;

  private static HttpResponse<String> got(HttpClient client, String address, String... headers)
      throws Exception {
    HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address));
    if (headers.length > 0) {
      request.headers(headers);
    }
    return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void aTokenIsAskedForOnceAndKeptByTheBrowser() throws Exception {
    Tests tests = new Tests(Bundled.library(), folder, 1, InstantSource.system());
    InetSocketAddress any = new InetSocketAddress(InetAddress.getLoopbackAddress(), 0);
    try (Site site = Site.open(any, tests, Optional.of("long-and-secret"))) {
      String address = "http://localhost:" + site.port();
      HttpClient stranger = HttpClient.newHttpClient();
      assertThat(got(stranger, address + "/").statusCode()).isEqualTo(401);
      assertThat(got(stranger, address + "/api/tests").statusCode()).isEqualTo(401);
      assertThat(got(stranger, address + "/?token=long-and-wrong").statusCode()).isEqualTo(401);
      assertThat(got(stranger, address + "/", "Cookie", "gradus=").statusCode()).isEqualTo(401);
      HttpClient tester = HttpClient.newBuilder().cookieHandler(new CookieManager()).build();
      HttpResponse<String> first = got(tester, address + "/?token=long-and-secret");
      assertThat(first.statusCode()).isEqualTo(200);
      assertThat(first.headers().firstValue("Set-Cookie").orElse(""))
          .contains("HttpOnly", "SameSite=Strict");
      assertThat(got(tester, address + "/app.js").statusCode()).isEqualTo(200);
    }
  }
}
