package chainage.store.row;

import chainage.quantity.Decimals;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.Closeable;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads the JSON of a ride's columns value by value, without a tree of it: most of what all rides cost to read. Whatever
 * is not of the type that is asked for is an {@link IllegalArgumentException}, what is no JSON an {@link IOException}.
 */
final class RowJson implements Closeable {
    private static final JsonFactory FACTORY = new JsonFactory();

    private final String text;
    private final JsonParser parser;
    private boolean broken;

    RowJson(String text) throws IOException {
        this.text = text;
        this.parser = FACTORY.createParser(text);
    }

    /** Takes the value of a field, or skips it. */
    interface Fields {
        void take(String name) throws IOException;
    }

    /** Reads the cells of a list in their order; those behind are passed over. */
    interface Cells<T> {
        T read(RowJson cells) throws IOException;
    }

    /** The whole text, which is to be one object. */
    void object(Fields fields) throws IOException {
        need(parser.nextToken() == JsonToken.START_OBJECT);
        for (String name = parser.nextFieldName(); name != null; name = parser.nextFieldName()) {
            fields.take(name);
            if (broken) {
                return;
            }
        }
        need(parser.currentToken() == JsonToken.END_OBJECT && parser.nextToken() == null);
    }

    /** A list of lists. */
    <T> List<T> rows(Cells<T> row) throws IOException {
        List<T> rows = new ArrayList<>();
        need(parser.nextToken() == JsonToken.START_ARRAY);
        while (parser.nextToken() != JsonToken.END_ARRAY) {
            need(parser.currentToken() == JsonToken.START_ARRAY);
            rows.add(cells(row));
        }
        return rows;
    }

    /** A list within, as a row of {@link #rows}. */
    <T> T row(Cells<T> row) throws IOException {
        need(parser.nextToken() == JsonToken.START_ARRAY);
        return cells(row);
    }

    private <T> T cells(Cells<T> row) throws IOException {
        T read = row.read(this);
        while (parser.nextToken() != JsonToken.END_ARRAY) {
            parser.skipChildren();
        }
        return read;
    }

    /** A list of texts. */
    List<String> texts() throws IOException {
        List<String> texts = new ArrayList<>();
        need(parser.nextToken() == JsonToken.START_ARRAY);
        for (String t = parser.nextTextValue(); t != null; t = parser.nextTextValue()) {
            texts.add(t);
        }
        need(parser.currentToken() == JsonToken.END_ARRAY);
        return texts;
    }

    String text() throws IOException {
        String value = parser.nextTextValue();
        need(value != null);
        return value;
    }

    /** A number; NaN for null. */
    double real() throws IOException {
        if (parser.nextToken() == JsonToken.VALUE_NULL) {
            return Double.NaN;
        }
        need(parser.currentToken().isNumeric());
        // Most are plain, and the parser's own way is several times as long.
        int from = parser.getTextOffset();
        double plain = Decimals.of(parser.getTextCharacters(), from, from + parser.getTextLength());
        return Double.isNaN(plain) ? parser.getDoubleValue() : plain;
    }

    /** A whole number; what is behind its point is dropped. */
    long whole() throws IOException {
        need(parser.nextToken().isNumeric());
        return parser.getLongValue();
    }

    int count() throws IOException {
        return Math.toIntExact(whole());
    }

    /**
     * Goes past a value, and gives its text. Where that is no JSON, all that is left is its text, which says so when it is
     * read, and nothing stands behind it.
     */
    String unread() throws IOException {
        parser.nextToken();
        int from = (int) parser.currentTokenLocation().getCharOffset();
        try {
            parser.skipChildren();
        } catch (JsonParseException e) {
            broken = true;
            return text.substring(from);
        }
        return text.substring(from, (int) parser.currentLocation().getCharOffset());
    }

    /** Goes past a value. */
    void skip() throws IOException {
        parser.nextToken();
        parser.skipChildren();
    }

    private static void need(boolean holds) {
        if (!holds) {
            throw new IllegalArgumentException("a value of another type than a ride's");
        }
    }

    @Override
    public void close() throws IOException {
        parser.close();
    }
}
