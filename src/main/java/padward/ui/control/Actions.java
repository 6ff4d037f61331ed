package padward.ui.control;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;

/** Everything that can be done in the window. No name and no key is given twice. */
public final class Actions {
    private final Map<String, Action> byId = new LinkedHashMap<>();
    private final Map<KeyCombination, String> keys = new HashMap<>();

    /**
     * Adds actions.
     *
     * @throws IllegalArgumentException when a name or a key is taken
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

    /** The action of that name. */
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

    /** Does what a key means there; false when it means nothing. */
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
