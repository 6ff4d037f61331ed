package padward.format.netlist;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;

/**
 * A bracket of an EDIF file: a keyword, then words, texts, numbers and brackets.
 *
 * @param file name of the file in messages
 * @param word its keyword
 * @param line where it begins
 * @param items its contents, each a {@link String} or a bracket
 */
record Bracket(String file, String word, int line, List<Object> items) {
    boolean is(String keyword) {
        return word.equalsIgnoreCase(keyword);
    }

    /** The brackets in it. */
    List<Bracket> parts() {
        return items.stream().filter(Bracket.class::isInstance).map(Bracket.class::cast).toList();
    }

    /** The first bracket of that keyword. */
    Optional<Bracket> find(String keyword) {
        return parts().stream().filter(b -> b.is(keyword)).findFirst();
    }

    Object item(int index) throws BadInput {
        if (index >= items.size()) {
            throw new BadInput(file, "line " + line, "more in \"(" + word + "\"", "its end");
        }
        return items.get(index);
    }

    String text(int index) throws BadInput {
        Object item = item(index);
        if (item instanceof Bracket bracket) {
            throw new BadInput(
                    file, "line " + bracket.line, "a word or text", "\"(" + bracket.word + "\"");
        }
        return (String) item;
    }

    int integer(int index) throws BadInput {
        String text = text(index);
        if (!text.matches("-?[0-9]{1,9}")) {
            throw new BadInput(file, "line " + line, "a whole number", "\"" + text + "\"");
        }
        return Integer.parseInt(text);
    }
}
