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
 * An action of the window. Declared once; menus, buttons, keys and the command search all use it.
 *
 * @param id short name, which stays when the text changes
 * @param group its menu
 * @param text its label
 * @param keys keys that run it; the first is the one that is shown
 * @param scope where the keys work
 * @param purpose what it does, one sentence
 * @param possible whether it can be run now
 * @param on what it switches, for those that switch something on and off
 * @param work runs it
 */
public record Action(
        String id,
        Group group,
        String text,
        List<KeyCombination> keys,
        Scope scope,
        String purpose,
        ObservableBooleanValue possible,
        Optional<ObservableBooleanValue> on,
        Runnable work) {
    /** Copies the keys. */
    public Action {
        keys = List.copyOf(keys);
    }

    /** Menus, in order; some are submenus. */
    public enum Group {
        FILE("File"),
        /** Pictures and tables of what is shown. */
        EXPORT("Save a picture or table", FILE),
        /** Work that reads files and writes others. */
        TOOL("Tools", FILE),
        QUESTION("Question"),
        MAP("Map"),
        /** Moving and zooming the map. */
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

        /** The menu that it is a submenu of, if it is one. */
        Optional<Group> parent() {
            return parent;
        }
    }

    /** Where the keys of an action work. */
    public enum Scope {
        /** Wherever the focus is. */
        WINDOW,
        /** While the map has the focus. */
        MAP
    }

    /**
     * An action of the whole window that is always possible.
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
                Optional.empty(),
                work);
    }

    /** Reads a key by its code, which is the same in every language. */
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
            case "Alt" -> KeyCombination.ALT_DOWN;
            default -> throw new IllegalArgumentException("no such modifier: " + name);
        };
    }

    /** The same with keys that work only while the map has the focus. */
    public Action onMap() {
        return new Action(id, group, text, keys, Scope.MAP, purpose, possible, on, work);
    }

    /** The same, possible only under a condition. */
    public Action when(ObservableBooleanValue now) {
        return new Action(id, group, text, keys, scope, purpose, now, on, work);
    }

    /** The same, marked while something is on that it switches. */
    public Action marking(ObservableBooleanValue what) {
        return new Action(id, group, text, keys, scope, purpose, possible, Optional.of(what), work);
    }

    /** Runs it, if it is possible now. */
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

    /** Text of the tooltip: the purpose and the key. */
    String tip() {
        return keys.isEmpty() ? purpose : purpose + " (" + keyText() + ")";
    }
}
