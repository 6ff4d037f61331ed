package padward.cli.manners;

import java.io.FilterWriter;
import java.io.IOException;
import java.io.Writer;

/**
 * Breaks long lines of prose between words, so that a terminal does not break them within. What
 * follows has the line's indentation. Rows of tables, in which columns are two or more blanks
 * apart, stay as they are.
 */
public final class WrappingWriter extends FilterWriter {
    private final int width;
    private final StringBuilder line = new StringBuilder();

    /**
     * @param width characters in a line
     */
    public WrappingWriter(Writer out, int width) {
        super(out);
        this.width = width;
    }

    @Override
    public void write(int c) throws IOException {
        line.append((char) c);
        if (c == '\n') {
            writeLine();
        }
    }

    @Override
    public void write(char[] text, int from, int length) throws IOException {
        for (int i = from; i < from + length; i++) {
            write(text[i]);
        }
    }

    @Override
    public void write(String text, int from, int length) throws IOException {
        write(text.toCharArray(), from, length);
    }

    private void writeLine() throws IOException {
        String text = line.toString();
        line.setLength(0);
        String words = text.stripLeading();
        String indent = text.substring(0, text.length() - words.length());
        if (words.stripTrailing().contains("  ")) {
            out.write(text);
            return;
        }
        while (indent.length() + words.stripTrailing().length() > width) {
            int end = words.lastIndexOf(' ', width - indent.length());
            if (end <= 0) {
                break;
            }
            out.write(indent + words.substring(0, end) + System.lineSeparator());
            words = words.substring(end + 1);
        }
        out.write(indent + words);
    }

    @Override
    public void flush() throws IOException {
        // A line that is not complete may be part of a longer one; println completes it.
        super.flush();
    }

    @Override
    public void close() throws IOException {
        out.write(line.toString());
        line.setLength(0);
        super.close();
    }
}
