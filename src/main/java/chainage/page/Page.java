package chainage.page;

import java.util.List;

/**
 * The whole page.
 *
 * @param title of the window
 * @param kicker a line above the heading
 * @param heading the answer
 * @param lead what to do about it
 * @param opening what stands on the first screen below that
 * @param parts the rest, each with a place in the contents
 * @param colophon how the page came about
 */
public record Page(
        String title,
        String kicker,
        String heading,
        List<Block> lead,
        List<Block> opening,
        List<Part> parts,
        List<Block> colophon) {
    public Page {
        lead = List.copyOf(lead);
        opening = List.copyOf(opening);
        parts = List.copyOf(parts);
        colophon = List.copyOf(colophon);
    }

    /**
     * A part of the page under a heading of the second level.
     *
     * @param id what links point at; lower-case letters, digits and hyphens
     * @param title its heading, also in the contents
     * @param intro what stands before its sections
     * @param sections under headings of the third level; may be empty
     */
    public record Part(String id, String title, List<Block> intro, List<Section> sections) {
        public Part {
            intro = List.copyOf(intro);
            sections = List.copyOf(sections);
        }
    }

    /**
     * A section under a heading of the third level.
     *
     * @param id what links point at
     * @param title its heading, the rider's own name for something
     * @param note beside or below the heading
     * @param blocks what it holds
     */
    public record Section(String id, String title, String note, List<Block> blocks) {
        public Section {
            blocks = List.copyOf(blocks);
        }
    }
}
