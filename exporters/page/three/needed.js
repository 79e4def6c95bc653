export {
  AmbientLight, BufferAttribute, BufferGeometry, Color, DirectionalLight, DoubleSide, BackSide, Group,
  HemisphereLight, LineBasicMaterial, LineSegments, Matrix4, Mesh, MeshBasicMaterial,
  MeshLambertMaterial, OrthographicCamera, PCFShadowMap, Plane, PlaneGeometry, Raycaster, Scene,
  ShadowMaterial, SRGBColorSpace, Texture, Vector2, Vector3, WebGLRenderer, Box3, CanvasTexture
} from "three";
export { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
