package chainage.page;

import chainage.quantity.PlainText;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
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
        StringOutput out = new StringOutput();
        out.writeContent(MARK);
        String policy = "default-src 'none'; style-src '" + hash(style) + "'; script-src '" + hash(script)
                + "'; base-uri 'none'; form-action 'none'";
        TemplateEngine.createPrecompiled(ContentType.Html)
                .render("page/page.jte", Map.of("page", page, "policy", policy, "style", style, "script", script), out);
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
