package chainage.loopback;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * Gives a site to this machine's browsers, at a port that the system chooses. Nothing is logged, since an address holds a
 * key.
 */
public final class LoopbackServer implements AutoCloseable {
    private static final String KEY = "key";

    /**
     * A browser has six connections to a host; the others are for whoever ties some up: a request that is not sent whole
     * holds one for as long as it is borne. They are made as they are needed. Our choice.
     */
    private static final int THREADS = 2000;

    private static final int THREAD_SECONDS = 10;

    /** The address by number: what a name stands for may be changed by others. */
    private static final byte[] LOOPBACK = {127, 0, 0, 1};

    static {
        // Seconds: a request that is not sent whole by then is cut off, and so is a reader who takes no answer. The
        // platform's server reads these once, when it is first used. An answer from a very large ledger takes a minute.
        System.setProperty("sun.net.httpserver.maxReqTime", "10");
        System.setProperty("sun.net.httpserver.maxRspTime", "300");
        System.setProperty("sun.net.httpserver.idleInterval", "10");
        System.setProperty("sun.net.httpserver.maxIdleConnections", "32");
    }

    private final Site site;
    private final ServingLimits limits;
    private final Session session = new Session();
    private final HttpServer server;
    private final ThreadPoolExecutor threads = new ThreadPoolExecutor(
            THREADS, THREADS, THREAD_SECONDS, TimeUnit.SECONDS, new LinkedBlockingQueue<>(), LoopbackServer::thread);
    private final CountDownLatch ended = new CountDownLatch(1);
    private final String origin;
    private volatile long used = System.nanoTime();

    private LoopbackServer(Site site, ServingLimits limits) throws IOException {
        this.site = site;
        this.limits = limits;
        this.server = HttpServer.create(new InetSocketAddress(InetAddress.getByAddress(LOOPBACK), 0), 0);
        this.origin = "http://127.0.0.1:" + server.getAddress().getPort();
        threads.allowCoreThreadTimeOut(true);
    }

    /** Begins to serve. */
    public static LoopbackServer open(Site site, ServingLimits limits) throws IOException {
        LoopbackServer s = new LoopbackServer(site, limits);
        s.server.setExecutor(s.threads);
        s.server.createContext("/", s::handle);
        s.server.start();
        return s;
    }

    private static Thread thread(Runnable work) {
        Thread t = new Thread(work, "page");
        t.setDaemon(true);
        return t;
    }

    /** An address that opens once: each has a key of its own. */
    public URI address() {
        return URI.create(origin + session.path() + "?" + KEY + "=" + session.key());
    }

    /** Waits until it was told to end, or nobody has asked for as long as the limits say, or the thread is interrupted. */
    public void await() {
        long left = limits.unused().toNanos();
        try {
            while (left > 0 && !ended.await(left, TimeUnit.NANOSECONDS)) {
                left = limits.unused().toNanos() - (System.nanoTime() - used);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Ends; what is being answered is cut off. */
    @Override
    public void close() {
        ended.countDown();
        server.stop(0);
        threads.shutdownNow();
    }

    private void handle(HttpExchange exchange) throws IOException {
        try (exchange) {
            Headers headers = exchange.getResponseHeaders();
            headers.set("Content-Type", "text/html; charset=utf-8");
            headers.set("Cache-Control", "no-store");
            headers.set("Content-Security-Policy", "frame-ancestors 'none'; base-uri 'none'; form-action 'self'");
            headers.set("Cross-Origin-Opener-Policy", "same-origin");
            headers.set("Cross-Origin-Resource-Policy", "same-origin");
            headers.set("Referrer-Policy", "same-origin");
            headers.set("X-Content-Type-Options", "nosniff");
            headers.set("X-Frame-Options", "DENY");
            try {
                send(exchange, admitted(exchange));
            } catch (Refused e) {
                headers.set("Connection", "close");
                send(exchange, new Reply.Document(e.why().status(), site.refused(e.why())));
            }
        }
    }

    private void send(HttpExchange exchange, Reply reply) throws IOException {
        if (reply instanceof Reply.Onward o) {
            exchange.getResponseHeaders().set("Location", session.path() + o.place());
            exchange.sendResponseHeaders(303, -1);
        } else if (reply instanceof Reply.Document d) {
            write(exchange, d.status(), d.html());
        } else if (reply instanceof Reply.Last l) {
            write(exchange, 200, l.html());
            ended.countDown();
        } else {
            throw new AssertionError(reply);
        }
    }

    private static void write(HttpExchange exchange, int status, String html) throws IOException {
        byte[] bytes = html.getBytes(StandardCharsets.UTF_8);
        if (exchange.getRequestMethod().equals("HEAD")) {
            exchange.sendResponseHeaders(status, -1);
            return;
        }
        exchange.sendResponseHeaders(status, bytes.length);
        exchange.getResponseBody().write(bytes);
        exchange.getResponseBody().close();
    }

    private Reply admitted(HttpExchange exchange) throws IOException, Refused {
        Headers sent = exchange.getRequestHeaders();
        URI asked = exchange.getRequestURI();
        // A name that leads to this machine is not enough: whoever owns it would have the answers.
        if (!origin.equals("http://" + only(sent, "Host")) || asked.getRawAuthority() != null) {
            throw new Refused(TurnedAway.HOST);
        }
        boolean change = exchange.getRequestMethod().equals("POST");
        if (!change && !exchange.getRequestMethod().equals("GET")) {
            throw new Refused(TurnedAway.METHOD);
        }
        String place = place(asked);
        Map<String, List<String>> query =
                FormText.parse(change || asked.getRawQuery() == null ? "" : asked.getRawQuery());
        boolean known = sent.getOrDefault("Cookie", List.of()).stream().anyMatch(session::holds);
        if (query.containsKey(KEY)) {
            return entering(exchange, known, query);
        }
        if (!known) {
            throw new Refused(TurnedAway.SESSION);
        }
        if (change && !origin.equals(only(sent, "Origin"))) {
            throw new Refused(TurnedAway.ORIGIN);
        }
        Multipart form = change ? form(exchange) : new Multipart(query, List.of());
        Ask ask = new Ask(change, place, form.fields(), form.files(), session.token());
        if (change && !session.isToken(ask.field(Ask.TOKEN))) {
            throw new Refused(TurnedAway.TOKEN);
        }
        used = System.nanoTime();
        synchronized (site) {
            Reply reply = site.reply(ask);
            used = System.nanoTime();
            return reply;
        }
    }

    private Reply entering(HttpExchange exchange, boolean known, Map<String, List<String>> query) throws Refused {
        if (known) {
            return new Reply.Onward("");
        }
        if (!session.opens(query.getOrDefault(KEY, List.of("")).get(0))) {
            throw new Refused(TurnedAway.KEY);
        }
        used = System.nanoTime();
        exchange.getResponseHeaders().set("Set-Cookie", session.handOut());
        exchange.getResponseHeaders().set("Referrer-Policy", "no-referrer");
        // Not by a redirection: that would count as coming from where the address stood, and such a cookie is not sent
        // along then.
        return new Reply.Document(200, site.entered());
    }

    private String place(URI asked) throws Refused {
        String path = asked.getRawPath();
        if (path == null || !path.startsWith(session.path())) {
            throw new Refused(TurnedAway.PLACE);
        }
        String place = path.substring(session.path().length());
        if (!place.matches("[a-z]*")) {
            throw new Refused(TurnedAway.PLACE);
        }
        return place;
    }

    private Multipart form(HttpExchange exchange) throws IOException, Refused {
        String type = only(exchange.getRequestHeaders(), "Content-Type");
        if (type != null && Multipart.is(type)) {
            try {
                return Multipart.parse(type, body(exchange, limits.files()), limits.body());
            } catch (Refused e) {
                // Browsers send all of it before they read the answer.
                exchange.getRequestBody().transferTo(OutputStream.nullOutputStream());
                throw e;
            }
        }
        if (type == null || !type.matches("(?i)application/x-www-form-urlencoded *(;.*)?")) {
            throw new Refused(TurnedAway.FORM);
        }
        return new Multipart(
                FormText.parse(new String(body(exchange, limits.body()), StandardCharsets.UTF_8)), List.of());
    }

    private static byte[] body(HttpExchange exchange, int most) throws IOException, Refused {
        String length = only(exchange.getRequestHeaders(), "Content-Length");
        long said = length != null && length.matches("\\d{1,18}") ? Long.parseLong(length) : most + 1L;
        if (length != null && said > most) {
            throw new Refused(TurnedAway.SIZE);
        }
        // In one piece where it is said how long it is, so that a large one is in memory once and not twice.
        InputStream in = exchange.getRequestBody();
        byte[] body = length == null ? in.readNBytes((int) said) : new byte[(int) said];
        if (length != null && in.readNBytes(body, 0, body.length) < body.length) {
            throw new Refused(TurnedAway.FORM);
        }
        if (body.length > most) {
            throw new Refused(TurnedAway.SIZE);
        }
        return body;
    }

    /** The one value of a header; null where there is none, or are several. */
    private static @Nullable String only(Headers headers, String name) {
        List<String> values = headers.getOrDefault(name, List.of());
        return values.size() == 1 ? values.get(0) : null;
    }
}
