package padward.ui.control;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;

/** All actions of the window. No id and no key is used twice. */
public final class Actions {
    private final Map<String, Action> byId = new LinkedHashMap<>();
    private final Map<KeyCombination, String> keys = new HashMap<>();

    /**
     * Adds actions.
     *
     * @throws IllegalArgumentException when an id or a key is in use
     */
    public void add(List<Action> more) {
        for (Action action : more) {
            if (byId.putIfAbsent(action.id(), action) != null) {
                throw new IllegalArgumentException("two actions " + action.id());
            }
            for (KeyCombination key : action.keys()) {
                String other = keys.putIfAbsent(key, action.id());
                if (other != null) {
                    throw new IllegalArgumentException(
                            key + " for " + action.id() + " and " + other);
                }
            }
        }
    }

    /** The action with that id. */
    public Action get(String id) {
        Action action = byId.get(id);
        if (action == null) {
            throw new IllegalArgumentException("no action " + id);
        }
        return action;
    }

    /** All, in the order of their menus. */
    public List<Action> all() {
        List<Action> all = new ArrayList<>();
        for (Action.Group group : Action.Group.values()) {
            all.addAll(in(group));
        }
        return Collections.unmodifiableList(all);
    }

    /** Those of one menu. */
    List<Action> in(Action.Group group) {
        return byId.values().stream().filter(a -> a.group() == group).toList();
    }

    /** Runs the action of a key in that scope; false when there is none. */
    public boolean press(KeyEvent event, Action.Scope scope) {
        for (Action action : byId.values()) {
            if (action.scope() == scope && action.keys().stream().anyMatch(k -> k.match(event))) {
                action.run();
                return true;
            }
        }
        return false;
    }
}
