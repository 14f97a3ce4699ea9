package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;

/** One HTML document that needs no other file: the frame of every page on a machine. */
final class PageFrame {
    private static final String STYLE = """
        :root { color-scheme: light; }
        body { margin: 0 auto; max-width: 46rem; padding: 0 1rem 1.5rem; background: #fff; color: #111;
          font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
        h1 { font-size: 1.5rem; margin: 1rem 0 .3rem; } h2 { font-size: 1.1rem; margin: 1.2rem 0 .3rem; }
        p, ul, ol, figure { margin: .3rem 0 .6rem; } figure svg { display: block; width: 100%; height: auto; }
        figcaption, caption { font-size: .88rem; text-align: left; }
        .standing { border: 2px solid #111; padding: .5rem .8rem; } .table { overflow-x: auto; }
        table { border-collapse: collapse; width: 100%; font-size: .88rem; overflow-wrap: normal; margin-bottom: .5rem; }
        th, td { border-bottom: 1px solid #767676; padding: .2rem .5rem .2rem 0; text-align: left; vertical-align: top; }
        td.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; } th.number { text-align: right; }
        footer { margin-top: 1rem; font-size: .85rem; }
        @media print { @page { size: A4; margin: 12mm; } body { font-size: 8.6pt; line-height: 1.3; max-width: none; padding: 0; }
          h1 { font-size: 14pt; margin-top: 0; } h2 { font-size: 10.5pt; margin: 2.5mm 0 .8mm; break-after: avoid; }
          p, ul, ol, figure { margin: .6mm 0 1.4mm; } figcaption, caption, footer { font-size: 7.4pt; } figure svg { max-height: 62mm; } table { font-size: 7.4pt; }
          th, td { padding: .2mm 2mm .2mm 0; } .table { overflow: visible; } tr, figure { break-inside: avoid; } }
        """;

    private PageFrame() {
    }

    /** Shown as it is written: characters that hide are written out. */
    static String of(String heading, String intro, DomContent content, String foot) {
        return VisibleText.ofLines(document(html(
            head(meta().withCharset("utf-8"), meta().withName("viewport").withContent("width=device-width, initial-scale=1"),
                title(heading), style(rawHtml(STYLE))),
            body(header(h1(heading), p(intro)), content, footer(p(foot)))
        ).withLang("en"))) + "\n";
    }
}
