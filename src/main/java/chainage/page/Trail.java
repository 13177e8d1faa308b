package chainage.page;

/** Path data of a long line: points closer than can be told apart are passed over, so that it stays small. */
final class Trail {
    private static final double APART = 0.7;

    private final StringBuilder data = new StringBuilder();
    private double lastX = Double.NaN;
    private double lastY = Double.NaN;
    private double heldX = Double.NaN;
    private double heldY = Double.NaN;

    Trail move(double x, double y) {
        flush();
        add('M', x, y);
        return this;
    }

    /** A line on to here. */
    Trail line(double x, double y) {
        if (Math.abs(x - lastX) < APART && Math.abs(y - lastY) < APART) {
            heldX = x;
            heldY = y;
        } else {
            add('L', x, y);
        }
        return this;
    }

    private void flush() {
        if (!Double.isNaN(heldX)) {
            add('L', heldX, heldY);
        }
    }

    private void add(char how, double x, double y) {
        data.append(how).append(Drawing.px(x)).append(' ').append(Drawing.px(y));
        lastX = x;
        lastY = y;
        heldX = Double.NaN;
        heldY = Double.NaN;
    }

    boolean isEmpty() {
        return data.isEmpty();
    }

    String data() {
        flush();
        return data.toString();
    }
}
