/**
 * One self-contained HTML page: a document of headings, words, tables and plots, made into text. What is shown, in which
 * units and time zone, is decided by whoever builds the document; here it only gets its form. Everything that is not this
 * package's own markup is escaped by the template engine, and the page may load nothing and run only its own script.
 */
@NullMarked
package chainage.page;

import org.jspecify.annotations.NullMarked;
