package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.ui.control.Action;
import padward.ui.scene.Layer;

/** What can be done on the map with its keys. */
public final class MapActions {
    private MapActions() {}

    /** The actions of one map. */
    public static List<Action> of(MapView map, MapModel model) {
        List<Action> result = new ArrayList<>(places(map.travel()));
        for (Layer layer : Layer.values()) {
            result.add(
                    onMap(
                            Action.Group.LAYER,
                            "layer-" + layer.name().toLowerCase(Locale.ROOT),
                            "Show or hide: " + layer.label(),
                            layer.key(),
                            layer.what(),
                            () -> model.options().toggle(layer)));
        }
        result.add(
                onMap(
                        Action.Group.MAP,
                        "pin",
                        "Pin what is in the middle",
                        "Enter",
                        "Keeps in view what is at the cross in the middle of the map: its name, who"
                                + " holds it, what it can drive",
                        map.pointer()::pickMiddle));
        result.add(
                onMap(
                        Action.Group.MAP,
                        "unpin",
                        "Unpin",
                        "U",
                        "Puts away what is pinned on the map",
                        () -> model.pinnedProperty().set(Optional.empty())));
        return result;
    }

    private static List<Action> places(MapNavigation travel) {
        return List.of(
                onMap(
                        Action.Group.MAP,
                        "whole-fabric",
                        "Whole fabric",
                        "Digit0 Numpad0 Home",
                        "Zooms out until the whole fabric is seen",
                        travel::fitAll),
                onMap(
                        Action.Group.MAP,
                        "whole-route",
                        "Whole way",
                        "W",
                        "Zooms so that the whole way is seen",
                        travel::fitRoute),
                onMap(
                        Action.Group.MAP,
                        "whole-net",
                        "Whole net",
                        "N",
                        "Zooms so that all wires of the net are seen: of what is pinned, or else of"
                                + " the question",
                        travel::fitNet),
                onMap(
                        Action.Group.MAP,
                        "whole-tile",
                        "Whole tile",
                        "T",
                        "Zooms to the tile of what is pinned, or else to the one in the middle",
                        travel::fitTile),
                onMap(
                        Action.Group.MOVE,
                        "zoom-in",
                        "Nearer",
                        "Plus Equals Add Shift+Equals Shift+Plus",
                        "Zooms in about the middle of the map",
                        () -> travel.zoom(1)),
                onMap(
                        Action.Group.MOVE,
                        "zoom-out",
                        "Farther",
                        "Minus Subtract",
                        "Zooms out about the middle of the map",
                        () -> travel.zoom(-1)),
                onMap(
                        Action.Group.MAP,
                        "back",
                        "Back",
                        "Back_Space",
                        "Back to the place on the map before the last jump",
                        travel::back),
                onMap(
                        Action.Group.MAP,
                        "forward",
                        "Forward",
                        "Shift+Back_Space",
                        "Forward to the place on the map that you came back from",
                        travel::forward),
                onMap(
                        Action.Group.MOVE,
                        "west",
                        "Move left",
                        "Left",
                        "Shows more of the left",
                        () -> travel.step(-1, 0)),
                onMap(
                        Action.Group.MOVE,
                        "east",
                        "Move right",
                        "Right",
                        "Shows more of the right",
                        () -> travel.step(1, 0)),
                onMap(
                        Action.Group.MOVE,
                        "north",
                        "Move up",
                        "Up",
                        "Shows more of what is above",
                        () -> travel.step(0, -1)),
                onMap(
                        Action.Group.MOVE,
                        "south",
                        "Move down",
                        "Down",
                        "Shows more of what is below",
                        () -> travel.step(0, 1)));
    }

    private static Action onMap(
            Action.Group group,
            String id,
            String text,
            String keys,
            String purpose,
            Runnable work) {
        return Action.of(id, group, text, keys, purpose, work).onMap();
    }
}
