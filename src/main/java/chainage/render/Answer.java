package chainage.render;

/** What a question is answered with, in the forms that a reader may want it in. */
public interface Answer {
    /**
     * The object for scripts; its fields are declared once, as {@link Columns}. The first of them that is a list of
     * objects is what a spreadsheet gets.
     */
    Json json();

    /** Sentences and tables for people. */
    void print(Out out);
}
