package chainage.page;

import java.util.ArrayList;
import java.util.List;

/** A chain with a ruler along it, and the two edges between which its length is read. */
public final class MeasurePicture {
    /** Links drawn, a pitch each; those between are left out. */
    private static final int LINKS = 7;

    private MeasurePicture() {}

    /** The picture. */
    public static Plot plot(String title, String caption) {
        return Plot.of(title, caption, MeasurePicture::draw);
    }

    private static Drawing draw(int width) {
        double pitch = (width - 24.0) / LINKS;
        double y = 46;
        double pin = pitch * 0.11;
        List<Drawing.Shape> shapes = new ArrayList<>();
        for (int i = 0; i < LINKS; i++) {
            double x = 12 + pitch * i;
            // Plates overlap by turns, the outer ones wider.
            double half = i % 2 == 0 ? pitch * 0.26 : pitch * 0.2;
            shapes.add(Drawing.box("read", x, y - half, pitch, 2 * half, ""));
        }
        for (int i = 1; i < LINKS; i++) {
            shapes.add(Drawing.dot("treatmark", 12 + pitch * i, y, pin, ""));
        }
        double from = 12 + pitch - pin;
        double to = 12 + pitch * (LINKS - 1) - pin;
        double middle = (from + to) / 2;
        // Torn in the middle: most of the pitches are not drawn.
        double tear = pitch * 0.16;
        shapes.add(Drawing.box("paper", middle - tear, 4, 2 * tear, 84, ""));
        shapes.add(Drawing.label("name", middle, y + 5, "middle", "…"));
        double ruler = 98;
        shapes.add(Drawing.box("band", from, ruler, to - from, 26, ""));
        shapes.add(Drawing.line("wetstroke", from, 16, from, ruler + 26));
        shapes.add(Drawing.line("wetstroke", to, 16, to, ruler + 26));
        for (int i = 1; i < 24; i++) {
            double x = from + (to - from) * i / 24;
            shapes.add(Drawing.line("notch", x, ruler, x, ruler + (i % 4 == 0 ? 9 : 5)));
        }
        shapes.add(Drawing.label("axis", middle, ruler + 22, "middle", "24 × 12.7 mm"));
        return new Drawing(width, 128, shapes);
    }
}
