package chainage.store;

import chainage.quantity.Decimals;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads the JSON of a ride's two columns in the very form in which {@link RideRow} writes it, several times faster than a
 * parser of any JSON: without white space, numbers in plain decimals, texts without escapes. Whatever has another form is
 * {@link Other}, and for {@link Json} to read, which says the same of this one.
 */
final class QuickJson {
    private final String text;
    private int at;

    QuickJson(String text) {
        this(text, 0);
    }

    private QuickJson(String text, int from) {
        this.text = text;
        this.at = from;
    }

    /** The text has another form than ours. */
    static final class Other extends Exception {
        private static final long serialVersionUID = 1L;

        Other() {
            super("not in our own form", null, false, false);
        }
    }

    /** True, and gone past it, when this stands next. */
    boolean skip(char expected) {
        if (at < text.length() && text.charAt(at) == expected) {
            at++;
            return true;
        }
        return false;
    }

    void need(char expected) throws Other {
        if (!skip(expected)) {
            throw new Other();
        }
    }

    /** True, and gone past both, when a field of this name comes next. */
    boolean field(String name) {
        int length = name.length();
        if (text.startsWith(name, at + 1) && text.startsWith("\":", at + 1 + length) && text.charAt(at) == '"') {
            at += length + 3;
            return true;
        }
        return false;
    }

    void end() throws Other {
        if (at != text.length()) {
            throw new Other();
        }
    }

    /** A number; NaN for null. */
    double real() throws Other {
        if (text.startsWith("null", at)) {
            at += 4;
            return Double.NaN;
        }
        int from = at;
        skip('-');
        int first = at;
        int point = -1;
        for (; at < text.length(); at++) {
            char c = text.charAt(at);
            if (c == '.' && point < 0) {
                point = at;
            } else if (c < '0' || c > '9') {
                break;
            }
        }
        int whole = (point < 0 ? at : point) - first;
        // As JSON has it: a digit on both sides of the point, no zeros in front, no exponent.
        if (whole == 0
                || point == at - 1
                || (whole > 1 && text.charAt(first) == '0')
                || (at < text.length() && (text.charAt(at) | 0x20) == 'e')) {
            throw new Other();
        }
        double value = Decimals.of(text, from, at);
        if (Double.isNaN(value)) {
            throw new Other();
        }
        return value;
    }

    int integer() throws Other {
        double value = real();
        if (value != (int) value) {
            throw new Other();
        }
        return (int) value;
    }

    int nextInteger() throws Other {
        need(',');
        return integer();
    }

    /** A whole number within a double's exact range. */
    long whole() throws Other {
        double value = real();
        if (value != (long) value) {
            throw new Other();
        }
        return (long) value;
    }

    String string() throws Other {
        need('"');
        int from = at;
        while (at < text.length()) {
            char c = text.charAt(at++);
            if (c == '"') {
                return text.substring(from, at - 1);
            }
            if (c == '\\' || c < ' ') {
                break;
            }
        }
        throw new Other();
    }

    List<String> strings() throws Other {
        List<String> strings = new ArrayList<>();
        need('[');
        do {
            strings.add(string());
        } while (skip(','));
        need(']');
        return strings;
    }

    /**
     * Goes past a list of lists of numbers, to be read later: nothing in it is understood yet, but each list has so many
     * cells, and nothing but numbers.
     */
    QuickJson later(int cells) throws Other {
        QuickJson here = new QuickJson(text, at);
        need('[');
        do {
            need('[');
            int commas = 0;
            for (; at < text.length() && text.charAt(at) != ']'; at++) {
                char c = text.charAt(at);
                if (c == ',') {
                    commas++;
                } else if (c == 'n' && text.startsWith("null", at)) {
                    at += 3;
                } else if ((c < '0' || c > '9') && c != '.' && c != '-') {
                    throw new Other();
                }
            }
            need(']');
            if (commas != cells - 1) {
                throw new Other();
            }
        } while (skip(','));
        need(']');
        return here;
    }

    interface Cells<T> {
        T read(QuickJson cells) throws Other;
    }

    /** A list of lists, each read between its brackets. */
    <T> List<T> rows(Cells<T> row) throws Other {
        List<T> rows = new ArrayList<>();
        need('[');
        do {
            need('[');
            rows.add(row.read(this));
            need(']');
        } while (skip(','));
        need(']');
        return rows;
    }

    /** The next cell as a number, past the comma before it. */
    double nextReal() throws Other {
        need(',');
        return real();
    }

    String nextString() throws Other {
        need(',');
        return string();
    }
}
