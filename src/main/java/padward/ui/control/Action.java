package padward.ui.control;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.binding.BooleanExpression;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.value.ObservableBooleanValue;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;

/**
 * Something that can be done in the window. Declared once; menus, buttons, keys and the command
 * search all take it from here.
 *
 * @param id short name, kept when the text is reworded
 * @param group menu that it stands in
 * @param text what it is called
 * @param keys keys that do it; the first is the one that is told
 * @param scope where the keys do it
 * @param purpose what it is good for, one sentence
 * @param possible whether it can be done now
 * @param work does it
 */
public record Action(
        String id,
        Group group,
        String text,
        List<KeyCombination> keys,
        Scope scope,
        String purpose,
        ObservableBooleanValue possible,
        Runnable work) {
    /** Copies the keys. */
    public Action {
        keys = List.copyOf(keys);
    }

    /** Menus, in their order; some stand in another one. */
    public enum Group {
        FILE("File"),
        /** Pictures and tables of what is shown. */
        EXPORT("Save a picture or table", FILE),
        QUESTION("Question"),
        MAP("Map"),
        /** Small steps over the map. */
        MOVE("Navigate", MAP),
        /** What the map shows. */
        LAYER("Layers", MAP),
        VIEW("View"),
        HELP("Help");

        private final String title;
        private final Optional<Group> parent;

        Group(String title) {
            this.title = title;
            this.parent = Optional.empty();
        }

        Group(String title, Group parent) {
            this.title = title;
            this.parent = Optional.of(parent);
        }

        String title() {
            return title;
        }

        /** The menu that it stands in, if it is not one of the bar's own. */
        Optional<Group> parent() {
            return parent;
        }
    }

    /** Where keys do what their action says. */
    public enum Scope {
        /** Wherever the focus is. */
        WINDOW,
        /** While the map has the focus. */
        MAP
    }

    /**
     * An action of the whole window that can always be done.
     *
     * @param keys names of {@link KeyCode}s after {@code Shortcut+} or {@code Shift+}, with blanks
     *     between; empty for none
     */
    public static Action of(
            String id, Group group, String text, String keys, String purpose, Runnable work) {
        return new Action(
                id,
                group,
                text,
                Arrays.stream(keys.split(" ")).filter(k -> !k.isEmpty()).map(Action::key).toList(),
                Scope.WINDOW,
                purpose,
                BooleanExpression.booleanExpression(new SimpleBooleanProperty(true)),
                work);
    }

    /** Reads a key by its code, whose name does not change with the language. */
    private static KeyCombination key(String text) {
        List<String> parts = Arrays.asList(text.split("\\+"));
        KeyCombination.Modifier[] modifiers =
                parts.subList(0, parts.size() - 1).stream()
                        .map(Action::modifier)
                        .toArray(KeyCombination.Modifier[]::new);
        String code = parts.get(parts.size() - 1).toUpperCase(Locale.ROOT);
        return new KeyCodeCombination(KeyCode.valueOf(code), modifiers);
    }

    private static KeyCombination.Modifier modifier(String name) {
        return switch (name) {
            case "Shortcut" -> KeyCombination.SHORTCUT_DOWN;
            case "Shift" -> KeyCombination.SHIFT_DOWN;
            default -> throw new IllegalArgumentException("no such modifier: " + name);
        };
    }

    /** The same, its keys only while the map has the focus. */
    public Action onMap() {
        return new Action(id, group, text, keys, Scope.MAP, purpose, possible, work);
    }

    /** The same, possible only at times. */
    public Action when(ObservableBooleanValue now) {
        return new Action(id, group, text, keys, scope, purpose, now, work);
    }

    /** Does it, if it can be done now. */
    public void run() {
        if (possible.get()) {
            work.run();
        }
    }

    /** The key that is shown, as people read it; empty without one. */
    String keyText() {
        return keys.stream()
                .findFirst()
                .map(KeyCombination::getDisplayText)
                .orElse("")
                // "Ctrl++" and "Ctrl+-" are hard to read.
                .replaceFirst("\\+([+-])$", " and $1");
    }

    /** What a tooltip says: what it is good for, and its key. */
    String tip() {
        return keys.isEmpty() ? purpose : purpose + " (" + keyText() + ")";
    }
}
