// The view to turn, the table tied to it and the ticks. Plain script; THREE stands before it.
"use strict";
(() => {
  const $ = (id) => document.getElementById(id);
  const root = document.documentElement;

  // ---- ticks: kept in this browser under the piece's name, operation by operation ----
  const store = `ticks:${root.dataset.piece}`;
  const ticked = new Set();
  try { JSON.parse(localStorage.getItem(store) || "[]").forEach((key) => ticked.add(key)); } catch { /* none kept */ }
  const boxes = () => [...document.querySelectorAll(".tick input")];
  const keysOf = (box) => JSON.parse(box.dataset.keys);
  const count = () => {
    const all = boxes(), done = all.filter((box) => box.checked).length;
    if ($("count")) $("count").textContent = all.length ? `${done} of ${all.length} steps ticked` : "";
  };
  const showTicks = () => {
    boxes().forEach((box) => {
      box.checked = keysOf(box).every((key) => ticked.has(key));
      box.closest(".tick").classList.toggle("done", box.checked);
    });
    count();
  };
  document.addEventListener("change", (event) => {
    const box = event.target;
    if (!box.matches(".tick input")) return;
    keysOf(box).forEach((key) => (box.checked ? ticked.add(key) : ticked.delete(key)));
    box.closest(".tick").classList.toggle("done", box.checked);
    try { localStorage.setItem(store, JSON.stringify([...ticked])); } catch { /* told beside the list */ }
    count();
  });
  if (boxes().length) showTicks();
  addEventListener("beforeprint", () => document.querySelectorAll("details").forEach((each) => { each.open = true; }));

  // ---- the view ----
  const view = $("view"), still = $("still"), told = $("told");
  const fail = (why) => {
    view.hidden = true; still.hidden = false;
    document.querySelectorAll(".tools").forEach((each) => { each.hidden = true; });
    $("without").hidden = false;
    $("why").textContent = why;
  };
  const PAPER = 0xffffff, CUT = 0x1f1b17, LINE = 0x2b2118;
  let renderer, camera, controls, scene, sun, floor;
  const nodes = [];
  let chosen = "", opened = 0, sun_reach = 1;

  const read = (bytes) => {
    const head = new DataView(bytes), length = head.getUint32(12, true);
    const tree = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 20, length)));
    const from = 28 + length;
    const rows = (index) => {
      const a = tree.accessors[index], v = tree.bufferViews[a.bufferView];
      const Kind = { 5120: Int8Array, 5123: Uint16Array, 5125: Uint32Array, 5126: Float32Array }[a.componentType];
      const wide = { SCALAR: 1, VEC2: 2, VEC3: 3 }[a.type], start = from + v.byteOffset;
      if (!v.byteStride) return new THREE.BufferAttribute(new Kind(bytes, start, a.count * wide), wide, a.normalized);
      const step = v.byteStride / Kind.BYTES_PER_ELEMENT, all = new Kind(bytes, start, a.count * step);
      const tight = new Kind(a.count * wide);
      for (let i = 0; i < a.count; i++) for (let c = 0; c < wide; c++) tight[i * wide + c] = all[i * step + c];
      return new THREE.BufferAttribute(tight, wide, a.normalized);
    };
    return { tree, rows, bytes, from };
  };

  const pictured = async (file, index) => {
    const image = file.tree.images[file.tree.textures[index].source], v = file.tree.bufferViews[image.bufferView];
    const blob = new Blob([new Uint8Array(file.bytes, file.from + v.byteOffset, v.byteLength)], { type: image.mimeType });
    const texture = new THREE.Texture(await createImageBitmap(blob, { imageOrientation: "none" }));
    texture.flipY = false; texture.colorSpace = THREE.SRGBColorSpace; texture.anisotropy = 4; texture.needsUpdate = true;
    return texture;
  };

  // the soft shadow on the floor, worked out beforehand; nothing where the piece hangs
  const shaded = async (file) => {
    const given = file.tree.nodes[0].extras?.shadow;
    if (!given) return null;
    const v = file.tree.bufferViews[given.bufferView], [low, high] = [given.low, given.high];
    const blob = new Blob([new Uint8Array(file.bytes, file.from + v.byteOffset, v.byteLength)], { type: "image/png" });
    const texture = new THREE.Texture(await createImageBitmap(blob, { imageOrientation: "flipY" }));
    texture.flipY = false; texture.needsUpdate = true;
    const made = new THREE.Mesh(new THREE.PlaneGeometry(high[0] - low[0], high[1] - low[1]),
      new THREE.MeshBasicMaterial({ color: 0x000000, alphaMap: texture, transparent: true, depthWrite: false }));
    made.position.set((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, given.level - 0.5);
    made.updateMatrix();
    return made;
  };

  const clear = () => {
    floor.children.slice().forEach((one) => { floor.remove(one); one.geometry.dispose(); one.material.alphaMap.dispose(); one.material.dispose(); });
    nodes.splice(0).forEach((each) => {
      scene.remove(each.group);
      each.group.traverse((one) => { one.geometry?.dispose(); one.material?.map?.dispose?.(); one.material?.dispose?.(); });
    });
  };

  const load = async (bytes) => {
    const file = read(bytes), base = new THREE.Matrix4().fromArray(file.tree.nodes[0].matrix);
    const geometries = new Map();
    const geometryOf = (primitive) => {
      const key = JSON.stringify(primitive.attributes) + primitive.indices;
      if (!geometries.has(key)) {
        const g = new THREE.BufferGeometry();
        g.setAttribute("position", file.rows(primitive.attributes.POSITION));
        if (primitive.attributes.NORMAL !== undefined) g.setAttribute("normal", file.rows(primitive.attributes.NORMAL));
        if (primitive.attributes.TEXCOORD_0 !== undefined) g.setAttribute("uv", file.rows(primitive.attributes.TEXCOORD_0));
        if (primitive.indices !== undefined) g.setIndex(file.rows(primitive.indices));
        geometries.set(key, g);
      }
      return geometries.get(key);
    };
    const made = [];
    for (const node of file.tree.nodes.slice(1)) {
      const group = new THREE.Group(), is_load = node.extras.sort === "load";
      const world = base.clone().multiply(new THREE.Matrix4().fromArray(node.matrix));
      world.decompose(group.position, group.quaternion, group.scale);
      for (const primitive of file.tree.meshes[node.mesh].primitives) {
        if (primitive.mode === 1) {
          const lines = new THREE.LineSegments(geometryOf(primitive), new THREE.LineBasicMaterial({
            color: LINE, transparent: true, opacity: is_load ? 0.25 : 0.55 }));
          group.add(lines);
          continue;
        }
        const look = file.tree.materials[primitive.material].pbrMetallicRoughness;
        const material = new THREE.MeshLambertMaterial({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
        if (look.baseColorTexture) material.map = await pictured(file, look.baseColorTexture.index);
        else material.color.setRGB(...look.baseColorFactor.slice(0, 3));
        if (is_load) { material.transparent = true; material.opacity = 0.16; material.depthWrite = false; }
        const mesh = new THREE.Mesh(geometryOf(primitive), material);
        mesh.castShadow = !is_load; mesh.receiveShadow = !is_load;
        const inside = new THREE.Mesh(mesh.geometry, new THREE.MeshBasicMaterial({ color: CUT, side: THREE.BackSide }));
        inside.visible = false; inside.userData.inside = !is_load;
        group.add(mesh, inside);
      }
      const s = node.extras.shift;
      const shift = new THREE.Vector3(...s).transformDirection(base).multiplyScalar(Math.hypot(...s) * 0.001 || 0);
      made.push({ group, name: node.name, sort: node.extras.sort, part: node.extras.part, home: group.position.clone(), shift });
    }
    const shadow = await shaded(file);
    clear();
    if (shadow) { shadow.applyMatrix4(base); floor.add(shadow); }
    made.forEach((each) => { scene.add(each.group); nodes.push(each); });
    open(opened); section(); choose(chosen, false);
  };

  const box = (loads) => {
    const all = new THREE.Box3();
    nodes.filter((each) => loads || each.sort !== "load").forEach((each) => all.expandByObject(each.group));
    return all;
  };

  const fit = () => {
    const all = box(opened === 0 && $("loads").checked), size = view.clientWidth / Math.max(view.clientHeight, 1);
    if (all.isEmpty()) return;
    const middle = all.getCenter(new THREE.Vector3());
    camera.updateMatrixWorld();
    const away = new THREE.Vector3().subVectors(camera.position, controls.target).normalize();
    const radius = all.getSize(new THREE.Vector3()).length();
    controls.target.copy(middle);
    camera.position.copy(middle).addScaledVector(away, radius * 3);
    camera.near = 0.01; camera.far = radius * 8; camera.lookAt(middle); camera.updateMatrixWorld();
    const turned = new THREE.Matrix4().copy(camera.matrixWorld).invert();
    let wide = 0, tall = 0;
    for (let i = 0; i < 8; i++) {
      const corner = new THREE.Vector3(i & 1 ? all.max.x : all.min.x, i & 2 ? all.max.y : all.min.y, i & 4 ? all.max.z : all.min.z).applyMatrix4(turned);
      wide = Math.max(wide, Math.abs(corner.x)); tall = Math.max(tall, Math.abs(corner.y));
    }
    const half = Math.max(tall, wide / size) * 1.08;
    camera.left = -half * size; camera.right = half * size; camera.top = half; camera.bottom = -half; camera.zoom = 1;
    camera.updateProjectionMatrix();
    sun.position.copy(middle).add(new THREE.Vector3(-0.5, 1.6, 0.6).multiplyScalar(radius));
    sun.target.position.copy(middle);
    sun_reach = radius * 0.8;
    Object.assign(sun.shadow.camera, { left: -sun_reach, right: sun_reach, top: sun_reach, bottom: -sun_reach, near: 0.01, far: radius * 4 });
    sun.shadow.camera.updateProjectionMatrix();
    draw();
  };

  let waiting = false;
  const draw = () => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => { waiting = false; renderer.render(scene, camera); view.dataset.frames = String(Number(view.dataset.frames || 0) + 1); });
  };

  const open = (share) => {
    opened = share;
    nodes.forEach((each) => {
      each.group.position.copy(each.home).addScaledVector(each.shift, share);
      if (each.sort === "load" || each.sort === "ballast") each.group.visible = share === 0 && $("loads").checked;
    });
    floor.visible = share === 0 && $("section").value === "";
    fit();
  };

  const plane = new THREE.Plane(new THREE.Vector3(-1, 0, 0), 0);
  const section = () => {
    const way = $("section").value, is_cut = way !== "", all = box(false);
    $("deep").disabled = !is_cut;
    floor.visible = opened === 0 && !is_cut;  // under what is cut away it would be a dark patch
    const axis = { x: "x", y: "z", z: "y" }[way] || "x", share = Number($("deep").value) / 100;
    // what is cut away lies towards the eye: right, front, top
    const sign = axis === "z" ? -1 : -1;
    plane.normal.set(axis === "x" ? -1 : 0, axis === "y" ? -1 : 0, axis === "z" ? sign : 0);
    plane.constant = all.max[axis] - (all.max[axis] - all.min[axis]) * share;
    nodes.forEach((each) => each.group.traverse((one) => {
      if (!one.material) return;
      one.material.clippingPlanes = is_cut ? [plane] : null;
      one.material.clipShadows = true;
      if (one.userData.inside) one.visible = is_cut;
    }));
    draw();
  };

  const rowOf = (part) => document.querySelector(`#parts tr[data-part="${CSS.escape(part)}"]`);
  const choose = (name, say = true) => {
    const node = nodes.find((each) => each.name === name) || nodes.find((each) => each.part === name && name);
    chosen = node ? node.name : "";
    const part = node ? node.part : "";
    nodes.forEach((each) => each.group.traverse((one) => {
      if (!one.material || one.userData.inside !== undefined || !one.material.emissive) return;
      one.material.emissive.setHex(each.name === chosen || (part && each.part === part) ? 0x6b2a08 : 0x000000);
    }));
    document.querySelectorAll("#parts tr[data-part]").forEach((row) => {
      const is_it = part && row.dataset.part === part;
      row.classList.toggle("chosen", Boolean(is_it));
      row.querySelector("button")?.setAttribute("aria-pressed", is_it ? "true" : "false");
    });
    const row = part && rowOf(part);
    told.textContent = node ? (row ? `${node.name}: ${row.dataset.size}` : node.name) : "";
    if (say) draw();
  };

  const start = async () => {
    try {
      renderer = new THREE.WebGLRenderer({ canvas: view, antialias: true, preserveDrawingBuffer: true });
    } catch { return fail("This browser shows no turning view, so here is a still picture."); }
    renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    renderer.setClearColor(PAPER);
    renderer.localClippingEnabled = true;
    renderer.shadowMap.enabled = true; renderer.shadowMap.type = THREE.PCFShadowMap;
    scene = new THREE.Scene();
    camera = new THREE.OrthographicCamera(-1, 1, 1, -1, 0.01, 10);
    camera.position.set(0.545, 0.4, 0.84);
    scene.add(new THREE.HemisphereLight(0xffffff, 0xcfc4b4, 2.1));
    sun = new THREE.DirectionalLight(0xfff4e4, 1.9);
    sun.castShadow = true; sun.shadow.mapSize.set(2048, 2048); sun.shadow.bias = -0.0006; sun.shadow.radius = 6;
    scene.add(sun, sun.target);
    floor = new THREE.Group();
    scene.add(floor);
    controls = new THREE.OrbitControls(camera, view);
    controls.enablePan = false; controls.minPolarAngle = 0.15; controls.maxPolarAngle = 2.5;
    view.style.touchAction = "pan-y";  // a swipe along the page still scrolls it
    controls.addEventListener("change", draw);
    view.addEventListener("wheel", (event) => { if (!event.ctrlKey && document.activeElement !== view) event.stopImmediatePropagation(); }, { capture: true, passive: true });
    const resized = () => { renderer.setSize(view.clientWidth, view.clientHeight, false); fit(); };
    new ResizeObserver(resized).observe(view);
    $("open").addEventListener("input", (event) => open(Number(event.target.value) / 100));
    $("section").addEventListener("change", section);
    $("deep").addEventListener("input", section);
    $("loads").addEventListener("change", () => open(opened));
    $("home").addEventListener("click", () => { camera.position.copy(controls.target).add(new THREE.Vector3(0.545, 0.4, 0.84)); $("open").value = 0; $("section").value = ""; section(); choose(""); open(0); });
    const ray = new THREE.Raycaster();
    let pressed = null;
    view.addEventListener("pointerdown", (event) => { pressed = [event.clientX, event.clientY]; });
    view.addEventListener("pointerup", (event) => {
      if (!pressed || Math.hypot(event.clientX - pressed[0], event.clientY - pressed[1]) > 6) return;
      const at = view.getBoundingClientRect();
      ray.setFromCamera(new THREE.Vector2(2 * (event.clientX - at.left) / at.width - 1, 1 - 2 * (event.clientY - at.top) / at.height), camera);
      const solid = nodes.filter((each) => each.sort !== "load" && each.group.visible);
      const hits = ray.intersectObjects(solid.flatMap((each) => each.group.children.filter((one) => one.isMesh && !one.userData.inside)), false);
      const kept = hits.find((hit) => $("section").value === "" || plane.distanceToPoint(hit.point) >= 0);
      choose(kept ? nodes.find((each) => each.group === kept.object.parent).name : "");
    });
    view.addEventListener("keydown", (event) => {
      const turn = 0.12, offset = camera.position.clone().sub(controls.target);
      const turns = { ArrowLeft: [-turn, 0], ArrowRight: [turn, 0], ArrowUp: [0, -turn], ArrowDown: [0, turn] }[event.key];
      if (turns) {
        const radius = offset.length();
        let theta = Math.atan2(offset.x, offset.z) + turns[0];
        const phi = Math.min(2.5, Math.max(0.15, Math.acos(offset.y / radius) + turns[1]));
        offset.set(radius * Math.sin(phi) * Math.sin(theta), radius * Math.cos(phi), radius * Math.sin(phi) * Math.cos(theta));
        camera.position.copy(controls.target).add(offset); camera.lookAt(controls.target); controls.update(); draw();
      } else if (event.key === "+" || event.key === "-") {
        camera.zoom *= event.key === "+" ? 1.15 : 1 / 1.15; camera.updateProjectionMatrix(); draw();
      } else if (event.key === "Escape") choose("");
      else if (event.key === "0") $("home").click();
      else return;
      event.preventDefault();
    });
    document.addEventListener("click", (event) => {
      const row = event.target.closest("#parts tr[data-part]");
      if (row && event.target.closest("button")) choose(row.classList.contains("chosen") ? "" : row.dataset.part);
    });
    addEventListener("beforeprint", () => { try { still.src = view.toDataURL("image/png"); } catch { /* the still stays */ } });
    const given = Uint8Array.from(atob($("piece-glb").textContent.trim()), (each) => each.charCodeAt(0)).buffer;
    await load(given);
    still.hidden = true; view.hidden = false;
    resized();
    view.dataset.ready = "1";
  };
  const ready = start().catch((error) => fail(`The view could not be drawn: ${error.message}`));

  window.plan = { load: async (bytes) => { await ready; await load(bytes); }, showTicks, choose };
})();
