package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;

/** One HTML document that needs no other file: the frame of every page. It lets a browser fetch nothing and run no script but the page's own. */
final class PageFrame {
    private static final String STYLE = resource("page.css");

    private PageFrame() {
    }

    static String of(String heading, String intro, DomContent content, String foot) {
        return of(heading, intro, content, foot, "");
    }

    /**
     * Shown as it is written: characters that hide are written out.
     *
     * @param script the name of a resource beside this class; empty for none
     */
    static String of(String heading, String intro, DomContent content, String foot, String script) {
        String code = script.isEmpty() ? "" : resource(script);
        String policy = "default-src 'none'; base-uri 'none'; form-action 'none'; style-src 'unsafe-inline'"
            + (code.isEmpty() ? "" : "; script-src 'sha256-" + Base64.getEncoder().encodeToString(PageNames.sha256(code)) + "'");
        return VisibleText.ofLines(document(html(
            head(meta().withCharset("utf-8"), meta().attr("http-equiv", "Content-Security-Policy").withContent(policy),
                meta().withName("viewport").withContent("width=device-width, initial-scale=1"), title(heading), style(rawHtml(STYLE))),
            body(header(h1(heading), p(intro)), content, footer(p(foot)), code.isEmpty() ? null : script(rawHtml(code))).withCondClass(!code.isEmpty(), "fleet")
        ).withLang("en"))) + "\n";
    }

    private static String resource(String name) {
        try (InputStream in = PageFrame.class.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
