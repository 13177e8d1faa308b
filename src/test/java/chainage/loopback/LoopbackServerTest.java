package chainage.loopback;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What browsers, other pages in them, and other programs may try, byte by byte over sockets of our own. */
@Timeout(300)
class LoopbackServerTest {
    private static final ServingLimits LIMITS = new ServingLimits(Duration.ofMinutes(10), 2000, 20_000);

    /** Says what it was asked. */
    private static final class Echo implements Site {
        private final List<Ask> asked = new ArrayList<>();

        @Override
        public Reply reply(Ask ask) {
            asked.add(ask);
            return ask.place().equals("end")
                    ? new Reply.Last("ended")
                    : new Reply.Document(200, "asked " + ask.place());
        }

        @Override
        public String entered() {
            return "entered";
        }

        @Override
        public String refused(TurnedAway why) {
            return "refused " + why;
        }
    }

    private record Answer(int status, String head, String body) {
        String header(String name) {
            return head.lines()
                    .filter(l -> l.regionMatches(true, 0, name + ":", 0, name.length() + 1))
                    .map(l -> l.substring(name.length() + 1).strip())
                    .findFirst()
                    .orElse("");
        }
    }

    private final Echo site = new Echo();
    private LoopbackServer server = open(LIMITS);
    private URI address = server.address();
    private String cookie = "";

    private LoopbackServer open(ServingLimits limits) {
        try {
            return LoopbackServer.open(site, limits);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    @BeforeEach
    void enter() throws IOException {
        Answer entered = get(address.getRawPath() + "?" + address.getRawQuery());
        assertEquals(200, entered.status());
        cookie = entered.header("Set-Cookie").replaceFirst(";.*", "");
    }

    @AfterEach
    void close() {
        server.close();
    }

    private String host() {
        return address.getRawAuthority();
    }

    private String origin() {
        return "http://" + host();
    }

    private Socket connect() throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), address.getPort());
        socket.setSoTimeout(30_000);
        return socket;
    }

    private Answer send(String request) throws IOException {
        try (Socket socket = connect()) {
            socket.getOutputStream().write(request.getBytes(StandardCharsets.UTF_8));
            return answer(socket.getInputStream());
        }
    }

    private static Answer answer(InputStream in) throws IOException {
        String all = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        int end = all.indexOf("\r\n\r\n");
        return end < 0
                ? new Answer(0, "", all)
                : new Answer(Integer.parseInt(all.substring(9, 12)), all.substring(0, end), all.substring(end + 4));
    }

    private Answer get(String path, String... headers) throws IOException {
        return send(request("GET", path, headers) + "\r\n");
    }

    private String request(String method, String path, String... headers) {
        StringBuilder b = new StringBuilder(method + " " + path + " HTTP/1.1\r\n");
        if (Stream.of(headers).noneMatch(h -> h.startsWith("Host:"))) {
            b.append("Host: ").append(host()).append("\r\n");
        }
        Stream.of(headers).forEach(h -> b.append(h).append("\r\n"));
        return b.append("Connection: close\r\n").toString();
    }

    private String form(String body, String... headers) {
        List<String> all = new ArrayList<>(List.of(headers));
        all.add("Content-Length: " + body.getBytes(StandardCharsets.UTF_8).length);
        return request("POST", address.getRawPath() + "do", all.toArray(String[]::new)) + "\r\n" + body;
    }

    private String token() throws IOException {
        get(address.getRawPath(), "Cookie: " + cookie);
        return site.asked.get(site.asked.size() - 1).token();
    }

    private static String typed() {
        return "Content-Type: application/x-www-form-urlencoded";
    }

    @Test
    void whoHasTheKeyLooksAndChanges() throws IOException {
        Answer page = get(address.getRawPath(), "Cookie: other=1; " + cookie);
        assertEquals("asked ", page.body());
        assertEquals("no-store", page.header("Cache-Control"));
        assertEquals("nosniff", page.header("X-Content-Type-Options"));
        assertTrue(page.header("Content-Security-Policy").contains("frame-ancestors 'none'"), page.head());
        String body = "token=" + token() + "&ride=1f&ride=2e&how=very+wet%2C+%C3%A9";
        Answer done = send(form(body, "Cookie: " + cookie, "Origin: " + origin(), typed()));
        assertEquals(200, done.status(), done.body());
        Ask ask = site.asked.get(site.asked.size() - 1);
        assertTrue(ask.change());
        assertEquals(List.of("1f", "2e"), ask.fields().get("ride"));
        assertEquals("very wet, é", ask.field("how"));
    }

    @Test
    void theCookieIsForThisPathAloneAndNoScriptSeesIt() throws IOException {
        URI other = server.address();
        String set = get(other.getRawPath() + "?" + other.getRawQuery()).header("Set-Cookie");
        assertTrue(set.endsWith("; Path=" + address.getRawPath() + "; HttpOnly; SameSite=Strict"), set);
        assertTrue(address.getRawPath().matches("/[A-Za-z0-9_-]{12}/"), address.getRawPath());
    }

    @Test
    void aKeyOpensOnce() throws IOException {
        String path = address.getRawPath();
        Answer again = get(path + "?" + address.getRawQuery());
        assertEquals("403 refused KEY", again.status() + " " + again.body());
        assertEquals("", again.header("Set-Cookie"));
        for (String key : List.of("", "x", "A".repeat(43), address.getRawQuery().substring(4))) {
            assertEquals("refused KEY", get(path + "?key=" + key).body());
        }
        // Whoever is in already is led to the page.
        Answer known = get(path + "?" + address.getRawQuery(), "Cookie: " + cookie);
        assertEquals("303 " + path, known.status() + " " + known.header("Location"));
        // Each address has a key of its own.
        assertNotEquals(server.address(), server.address());
    }

    @Test
    void aKeyOfAnEarlierServerOpensNothing() throws IOException {
        try (LoopbackServer later = open(LIMITS)) {
            URI now = later.address();
            URI was = address;
            address = now;
            assertEquals(404, get(was.getRawPath() + "?" + was.getRawQuery()).status());
            assertEquals(
                    "refused KEY",
                    get(now.getRawPath() + "?" + was.getRawQuery()).body());
            assertEquals(
                    "refused SESSION",
                    get(now.getRawPath(), "Cookie: " + cookie).body());
        }
    }

    @Test
    void aKeyElsewhereThanInTheAddressOpensNothing() throws IOException {
        String key = server.address().getRawQuery();
        String path = address.getRawPath();
        assertEquals(
                "refused SESSION",
                get(path, "Referer: " + origin() + path + "?" + key).body());
        assertEquals(
                "refused SESSION",
                get(path, "Cookie: " + key, "Authorization: " + key).body());
        assertEquals(
                "refused SESSION",
                send(form(key, "Origin: " + origin(), typed())).body());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Host: localhost:PORT",
                "Host: evil.example:PORT",
                "Host: 127.0.0.1",
                "Host: 127.0.0.1:1",
                "Host: [::1]:PORT",
                "Host: 127.0.0.1:PORT\r\nHost: evil.example",
                "Host: 127.0.0.1:PORT.evil.example"
            })
    void anotherHostIsTurnedAway(String host) throws IOException {
        String named = host.replace("PORT", String.valueOf(address.getPort()));
        Answer answer = get(address.getRawPath(), named, "Cookie: " + cookie);
        assertEquals("421 refused HOST", answer.status() + " " + answer.body());
        assertTrue(site.asked.isEmpty());
    }

    @Test
    void anAddressOfAnotherServerInTheRequestIsTurnedAway() throws IOException {
        Answer answer = get("http://evil.example" + address.getRawPath(), "Cookie: " + cookie);
        assertEquals("refused HOST", answer.body());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Origin: http://evil.example",
                "Origin: null",
                "Origin: https://127.0.0.1:PORT",
                "Origin: http://127.0.0.1:1",
                "Origin: http://localhost:PORT",
                "X: no origin at all",
                "Origin: http://127.0.0.1:PORT\r\nOrigin: http://evil.example"
            })
    void aFormOfAnotherPageChangesNothing(String sent) throws IOException {
        String header = sent.replace("PORT", String.valueOf(address.getPort()));
        String token = token();
        site.asked.clear();
        Answer answer = send(form("token=" + token, "Cookie: " + cookie, typed(), header));
        assertEquals("403 refused ORIGIN", answer.status() + " " + answer.body());
        assertTrue(site.asked.isEmpty());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "token=", "token=x", "token=x&token=TOKEN", "TOKEN=token", "token=TOKENx"})
    void aFormWithoutItsTokenChangesNothing(String body) throws IOException {
        String sent = body.replace("TOKEN", token());
        site.asked.clear();
        Answer answer = send(form(sent, "Cookie: " + cookie, "Origin: " + origin(), typed()));
        assertEquals("403 refused TOKEN", answer.status() + " " + answer.body());
        assertTrue(site.asked.isEmpty());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "text/plain",
                "application/json",
                "multipart/form-data",
                "multipart/form-data; boundary=x",
                "multipart/mixed; boundary=x",
                ""
            })
    void onlyAFormIsRead(String type) throws IOException {
        String[] headers = {"Cookie: " + cookie, "Origin: " + origin(), "Content-Type: " + type};
        assertEquals("refused FORM", send(form("token=" + token(), headers)).body());
    }

    @ParameterizedTest
    @ValueSource(strings = {"%", "%4", "a=%zz", "a=%C3", "%ff=1"})
    void aTornFormIsRefused(String body) throws IOException {
        assertEquals(
                "refused FORM",
                send(form(body, "Cookie: " + cookie, "Origin: " + origin(), typed()))
                        .body());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/",
                "//",
                "/favicon.ico",
                "/etc/passwd",
                "PATH../",
                "PATH..",
                "PATH%2e%2e/",
                "PATHdo/x",
                "PATH?x=%2e#",
                "PATHDO",
                "PATH.",
                "PATH%00",
                "PATHx;y",
                "PATH\\..\\x",
                "/..PATH"
            })
    void aPathLeadsNowhere(String path) throws IOException {
        Answer answer = get(path.replace("PATH", address.getRawPath()), "Cookie: " + cookie);
        boolean own = path.startsWith("PATH?");
        assertTrue(
                own
                        ? answer.status() == 200 || answer.status() == 400
                        : Set.of(400, 404).contains(answer.status()),
                path + " " + answer.status());
        assertEquals(own && answer.status() == 200 ? 1 : 0, site.asked.size());
    }

    @ParameterizedTest
    @ValueSource(strings = {"PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "PATCH", "HEAD", "get"})
    void onlyLookingAndSending(String method) throws IOException {
        Answer answer = send(request(method, address.getRawPath(), "Cookie: " + cookie) + "\r\n");
        assertTrue(Set.of(400, 405).contains(answer.status()), answer.head());
        assertTrue(site.asked.isEmpty());
    }

    @ParameterizedTest
    @CsvSource({"2001, false", "999999999999999999999, false", "-1, false", "100000, true"})
    void tooLongABodyIsNotRead(String length, boolean chunked) throws IOException {
        String head = request(
                "POST",
                address.getRawPath() + "do",
                "Cookie: " + cookie,
                "Origin: " + origin(),
                typed(),
                chunked ? "Transfer-Encoding: chunked" : "Content-Length: " + length);
        String body = chunked ? "186a0\r\n" + "a".repeat(100_000) + "\r\n0\r\n\r\n" : "token=x";
        int status;
        try {
            status = send(head + "\r\n" + body).status();
        } catch (IOException reset) {
            // It may close before we have sent everything.
            status = 413;
        }
        assertTrue(Set.of(413, 400, 0).contains(status), String.valueOf(status));
        assertTrue(site.asked.isEmpty());
    }

    /** Half a form and then silence: the server lets go in some ten seconds, and answers others meanwhile. */
    @Test
    void aSlowBodyHoldsNobodyUp() throws IOException {
        String token = token();
        List<Socket> slow = new ArrayList<>();
        try {
            for (int i = 0; i < 8; i++) {
                Socket s = connect();
                slow.add(s);
                s.getOutputStream()
                        .write((request(
                                                "POST",
                                                address.getRawPath() + "do",
                                                "Cookie: " + cookie,
                                                "Origin: " + origin(),
                                                typed(),
                                                "Content-Length: 1000")
                                        + "\r\ntoken=" + token)
                                .getBytes(StandardCharsets.UTF_8));
            }
            assertEquals(
                    "asked ", get(address.getRawPath(), "Cookie: " + cookie).body());
            long start = System.nanoTime();
            for (Socket s : slow) {
                try {
                    assertNotEquals(200, answer(s.getInputStream()).status());
                } catch (IOException reset) {
                    // Cut off, as it should be.
                }
            }
            assertTrue(System.nanoTime() - start < Duration.ofSeconds(25).toNanos(), "let go");
            assertTrue(site.asked.stream().noneMatch(Ask::change));
        } finally {
            for (Socket s : slow) {
                s.close();
            }
        }
    }

    private Answer sendParts(String boundary, String body) throws IOException {
        return send(form(
                body.replace("\n", "\r\n").replace("TOKEN", token()),
                "Cookie: " + cookie,
                "Origin: " + origin(),
                "Content-Type: multipart/form-data; boundary=" + boundary));
    }

    private static String part(String head, String content) {
        return "--x\nContent-Disposition: form-data; " + head + "\n\n" + content + "\n";
    }

    /** A form as RFC 7578 shows one, its names as browsers escape them (HTML Standard, "multipart form data"). */
    @Test
    void filesComeWithAForm() throws IOException {
        String body = part("name=\"token\"", "TOKEN")
                + part("name=\"ride\"", "1f")
                + part("name=\"ride\"", "")
                + "--x\nContent-Disposition: form-data; name=\"files\"; filename=\"é/a%22b.fit\"\nContent-Type:"
                + " application/octet-stream\n\n.FIT\n--\n--y\n\n"
                + part("name=\"files\"; filename=\"\"", "")
                + part("name=\"files\"; filename=\"empty.gpx\"", "")
                + "--x--\n";
        Answer answer = sendParts("x", body);
        assertEquals(200, answer.status(), answer.body());
        Ask ask = site.asked.get(site.asked.size() - 1);
        assertEquals(List.of("1f", ""), ask.fields().get("ride"));
        assertEquals(
                List.of("é/a\"b.fit", "empty.gpx"),
                ask.files().stream().map(Upload::name).toList());
        assertEquals(
                ".FIT\r\n--\r\n--y\r\n", new String(ask.files().get(0).open().readAllBytes(), StandardCharsets.UTF_8));
        assertEquals(0, ask.files().get(1).size());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "--x",
                "--x--",
                "--y\n\n--y--",
                "--x\nContent-Disposition: form-data; name=\"token\"\n\nTOKEN",
                "--x\nContent-Disposition: form-data; name=\"token\"\n\nTOKEN\n--x",
                "--x\nContent-Disposition: form-data\n\nTOKEN\n--x--",
                "--x\nname=\"token\"\n\nTOKEN\n--x--",
                "--x\n\nTOKEN\n--x--",
                "token=TOKEN"
            })
    void tornPartsAreRefused(String body) throws IOException {
        token();
        site.asked.clear();
        int status = sendParts("x", body).status();
        // Nothing at all is a form without its token.
        assertTrue(Set.of(400, 403).contains(status), String.valueOf(status));
        assertTrue(site.asked.stream().noneMatch(Ask::change));
    }

    @Test
    void filesWithoutTheTokenAndTooManyBytesAreRefused() throws IOException {
        String files = part("name=\"files\"; filename=\"a.fit\"", "x".repeat(3000)) + "--x--\n";
        assertEquals("refused TOKEN", sendParts("x", files).body());
        // A field is as short as in any form.
        assertEquals(
                "refused FORM",
                sendParts("x", part("name=\"token\"", "TOKEN") + part("name=\"ride\"", "1".repeat(2001)) + "--x--\n")
                        .body());
        assertEquals(
                "413 refused SIZE",
                sendParts("x", part("name=\"files\"; filename=\"a.fit\"", "x".repeat(20_000)) + "--x--\n")
                        .body()
                        .replaceFirst("^", "413 "));
        assertTrue(site.asked.stream().noneMatch(Ask::change));
    }

    @Test
    void aThousandSilentConnectionsAndAnAnswerAtOnce() throws IOException {
        List<Socket> many = crowd("");
        try {
            assertEquals(
                    "asked ", get(address.getRawPath(), "Cookie: " + cookie).body());
        } finally {
            leave(many);
        }
    }

    /** Each holds a thread until it is cut off, and there are more of these. */
    @Test
    void aThousandHalfRequestsAndAnAnswerAtOnce() throws IOException {
        List<Socket> many = crowd("GET / HTTP/1.1\r\nHost: ");
        long start = System.nanoTime();
        try {
            assertEquals(
                    "asked ", get(address.getRawPath(), "Cookie: " + cookie).body());
            assertTrue(System.nanoTime() - start < Duration.ofSeconds(5).toNanos(), "at once");
        } finally {
            leave(many);
        }
    }

    private List<Socket> crowd(String said) throws IOException {
        List<Socket> many = new ArrayList<>();
        for (int i = 0; i < 1000; i++) {
            Socket s = new Socket();
            s.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), address.getPort()), 20_000);
            s.getOutputStream().write(said.getBytes(StandardCharsets.UTF_8));
            many.add(s);
        }
        return many;
    }

    private static void leave(List<Socket> many) throws IOException {
        for (Socket s : many) {
            s.close();
        }
    }

    /** As the kernel lists it: proc(5), {@code /proc/net/tcp}, where an address is written in the machine's byte order. */
    @Test
    void itListensOnTheLoopbackAlone() throws IOException {
        Path table = Path.of("/proc/net/tcp");
        assumeTrue(Files.isReadable(table), "no list of sockets here");
        String port = String.format(java.util.Locale.ROOT, ":%04X", address.getPort());
        Set<String> bound = new HashSet<>();
        for (Path p : List.of(table, Path.of("/proc/net/tcp6"))) {
            if (Files.isReadable(p)) {
                for (String line : Files.readAllLines(p)) {
                    String[] words = line.strip().split(" +", -1);
                    boolean listens = words.length > 3 && words[3].equals("0A");
                    if (listens && words[1].endsWith(port)) {
                        bound.add(words[1].substring(0, words[1].indexOf(':')));
                    }
                }
            }
        }
        // As IPv6 the same is 0:0:ffff:127.0.0.1.
        assertFalse(bound.isEmpty());
        bound.forEach(b ->
                assertTrue(b.equals("0100007F") || b.equals("0000000000000000FFFF00000100007F"), "listens on " + b));
    }

    @Test
    void itEndsWhenItIsTold() throws IOException {
        String token = token();
        String form = form("token=" + token, "Cookie: " + cookie, "Origin: " + origin(), typed());
        assertEquals("ended", send(form.replaceFirst("do HTTP", "end HTTP")).body());
        server.await();
    }

    @Test
    void itEndsWhenNobodyAsks() {
        try (LoopbackServer brief = open(new ServingLimits(Duration.ofMillis(300), 2000, 2000))) {
            brief.await();
        }
    }
}
