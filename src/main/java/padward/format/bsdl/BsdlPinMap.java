package padward.format.bsdl;

import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.format.source.Text;

/**
 * Walks over the entries of a map of pins: {@code PORT:PIN} or {@code PORT:(PIN,PIN,…)}, with
 * commas between.
 */
final class BsdlPinMap {
    private final String file;
    private final String place;
    private final String text;
    private int at;
    private String port = "";
    private final List<String> pins = new ArrayList<>();

    BsdlPinMap(String file, String place, String text) {
        this.file = file;
        this.place = place;
        this.text = text;
    }

    String port() {
        return port;
    }

    List<String> pins() {
        return pins;
    }

    BadInput fault(String expected, String found) {
        return new BadInput(file, place + ", in the map of pins", expected, found);
    }

    /** Moves to the next entry; false at the end. */
    boolean next() throws BadInput {
        skipBlanks();
        if (at == text.length()) {
            return false;
        }
        if (!port.isEmpty()) {
            expect(',');
            skipBlanks();
            if (at == text.length()) {
                return false; // a comma behind the last entry does no harm
            }
        }
        port = word("the name of a port");
        if (peek() == '(') {
            at++;
            port += "(" + word("an index") + ")";
            expect(')');
        }
        expect(':');
        pins.clear();
        if (peek() != '(') {
            pins.add(word("a pin"));
            return true;
        }
        at++;
        pins.add(word("a pin"));
        while (peek() == ',') {
            at++;
            pins.add(word("a pin"));
        }
        expect(')');
        return true;
    }

    private char peek() {
        skipBlanks();
        return at < text.length() ? text.charAt(at) : '\0';
    }

    private void skipBlanks() {
        while (at < text.length() && text.charAt(at) <= ' ') {
            at++;
        }
    }

    private void expect(char mark) throws BadInput {
        if (peek() != mark) {
            throw fault("\"" + mark + "\" behind " + Text.quote(port), rest());
        }
        at++;
    }

    private String word(String what) throws BadInput {
        skipBlanks();
        int start = at;
        while (at < text.length()
                && (Character.isLetterOrDigit(text.charAt(at))
                        || text.charAt(at) == '_'
                        || text.charAt(at) == '.')) {
            at++;
        }
        if (start == at) {
            throw fault(what, rest());
        }
        return text.substring(start, at);
    }

    private String rest() {
        return at == text.length() ? "the end of the map" : Text.quote(text.substring(at));
    }
}
