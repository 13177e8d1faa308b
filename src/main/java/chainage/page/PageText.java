package chainage.page;

import chainage.quantity.PlainText;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.Collectors;

/** Makes a page into HTML. */
public final class PageText {
    /** What every page begins with, by which one of ours is known. */
    public static final String MARK = "<!doctype html>\n<!-- a page of chainage -->\n";

    private PageText() {}

    /**
     * One self-contained document: its styles and its script inside, nothing to be fetched, and no other script allowed to
     * run.
     *
     * @param style CSS
     * @param script JavaScript
     */
    public static String of(Page page, String style, String script) {
        return of(page, style, script, "form-action 'none'", Map.of("referrer", "no-referrer"));
    }

    /**
     * The same for a page that is served: its forms may be sent to where it came from, and say that they come from it.
     *
     * @param wait what is said while the answer to a form is waited for
     */
    public static String served(Page page, String style, String script, String wait) {
        return of(
                page,
                style,
                script,
                "form-action 'self'; connect-src 'self'",
                Map.of("referrer", "same-origin", "wait", wait));
    }

    private static String of(Page page, String style, String script, String reached, Map<String, Object> more) {
        Map<String, Object> parameters = new HashMap<>(more);
        parameters.put("page", page);
        parameters.put(
                "policy",
                "default-src 'none'; style-src '" + hash(style) + "'; script-src '" + hash(script)
                        + "'; base-uri 'none'; " + reached);
        parameters.put("style", style);
        parameters.put("script", script);
        return text("page/page.jte", parameters);
    }

    /**
     * A document that leads on to another by itself.
     *
     * @param words what is said meanwhile
     * @param address of the other
     * @param link what the link to it says, for browsers that do not go there by themselves
     */
    public static String onward(String words, String address, String link) {
        return text("page/onward.jte", Map.of("words", words, "address", address, "link", link));
    }

    private static String text(String template, Map<String, Object> parameters) {
        StringOutput out = new StringOutput();
        out.writeContent(MARK);
        TemplateEngine.createPrecompiled(ContentType.Html).render(template, parameters, out);
        // Names and titles come from anywhere; here all of them pass, so that nothing else on the page has to be
        // careful.
        return out.toString().lines().map(PlainText::marked).collect(Collectors.joining("\n", "", "\n"));
    }

    private static String hash(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return "sha256-" + Base64.getEncoder().encodeToString(digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
