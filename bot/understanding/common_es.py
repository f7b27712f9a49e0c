"""Common Spanish words that lie near a field word in spelling and are none: they are never 'corrected'."""

COMMON = """
abandona abandonada abandonado abandono abierta abierto abiertos abogados abrazo abrazos abre abri abriendo abrigo abrio abrir
abuelos aburrida aburrido acababa acabado acabamos acaban acabara acabas acabe acaso acertado aclara aclarar acordado acta actas
acto actuar acusados acusar adoptada adoptado adoro afecta afectan afectar africa afueras agarra agarrar agarre agenda agente
agrada agrado agregado aguas aguila aguilar aguja ahorita ahorrar ahorro aires aislados ajena alarma alba alberga alberto
alcance alcanza alcanzado alcanzan alcanzar alegando alegra alegria alegro alejado aleman alerta alfa algun algunas alguno
algunos aliado alianza alimenta alimentacion alimentar alimentaria alla almas almeria alojamiento altar altas alto altura alza
amaba amado amamos amargo ambito ambitos amigas amos amplia ampliacion amplias analista analistas anciana andes andina andres
angela anillo anima animado animal anime animos anonimo ante antena apagar aparecen aparecer aparecia aparecio aparente aparezca
apartado aparte apetece aplicaciones apoyada apoyando aprobado aprueba apto arabia ardiente area arena arenas arma armada
armadas armados arranca arrancar arranco arrestado arroyo arte artes asalto ascenso asesor asia asiento aspectos asuntos ataca
atacado atacan atacando atacar atacaron ataco atado ataque ataques atenas atentado atentados atraer atrapado atrapados
atravesando atravesar aumentos autor autora autos avance avanzada avanzado avanzar avatar avenida avisa avisos ayuda ayudo
añadiendo baby bailando bailar bajada bajas baje bajos bala balanza balas ballet banca banco bancos bandas bando bandos bang
bank barata barato barba barra barras basa basada basado basados basan basicos bastantes bateria batman baño bebes bebidas beca
benito beso bienes bloque bloquea bloquear bloques bocas boda bolas boleto boletos bolivar bolsas bolso boludo bonita bonitas
bonitos bono borrado borrar botellas bravo brecha bronca brujas buen buscado buscador buscan buscar buscarlo buscas cabaña cabe
cabezas cabida cabildo cabina cable cables cabo cabra cabrera cabron cacao caceres cadena caga cagada cago caia caida caido
caidos cairo caja calcio calcula calcular cali calibre calido call calla callado callao callar calles calmar calvo calzada
calzado cama camara camarada camaras cambia cambiado cambian cambiando cambiar cambiara cambiaria cambiaron cambio cameron
camilo camina caminar caminos camion camisas camiseta campeon canada canasta cancha candidata candidato canon cansados canta
cantan cantando cantar cantidad canton caos capas capilla capo captar captura carajo caras carbon carcel carece carga cargada
cargado cargando cargar cargas cargo cargos caribe cariño carl carla carlos carmen carnes carnet caro carril carrillo carros
carta cartas cartel carter carton casa casada casado casados casar casas casco case casero casino casos castilla castro casual
cauca caudal causada causado causan causando causas causo cayeron cayo caza cazar caña cañon cedula celula celulares celulas
cenar centra centrado centro cera cercana cercano cerdos cereales cerebral cerebro cero cerradas cerrados cerrar cerraron
chaqueta cheque chilena chupa ciento cientos cierran cierta ciertas ciertos cigarrillos cima cinta cintas cintura citada citado
citar citas city clara claras claros clases clausula claves clavo coca coches cocina coco codigo codo coger cogido cojo cola
colas colchon colegio colera colina colmo colo colores coma comando combina come comedia comedor comen comento comenzo comes
cometa comete cometer cometido cometio comi comic comico comidas comience comienza comienzo comienzos comisaria comite comoda
comodo compara compañeras compañeros compañia compra compras compre comprendo compro compromiso comuna comunal comunes concejo
concesion concha conclusion conclusiones conectar conejo confesar confesion confio confundir confuso conmigo cono conocimientos
conocio consegui consejo consiga consigna consiguen consiguio consiste consta consumo contactar contar contaron contenta conteo
contesta contesto contigo continua continuado continuan continuara continuaron continuas continue continuo contra contratar
conversion cooper copa copas copias corea coro corona corral corre correa correcto corredor corren correos correr corriendo
corrio cortado cortan cortar cortas corte cortes corteza cortina cortinas corto cortos coruña costa costar costas costera costes
costos coño crea creamos crece crecen crecer creemos creen creer crees crei creo cristal cristo cruzando cuadra cuadrado cuadro
cuan cuanta cuanto cuantos cuarta cuarto cuatro cuba cubana cubano cubierta cubierto cuenca cuenta cuentan cuentas cuente
cuenten cuento cuerda cuernos cuero cuerpos cuervo cueste cuestion cuevas cuidado cuidando culo cuna cupo cura curso cursos cuyo
dada dados dandole dario darnos dato daño deba debajo debe debia debian debida debido debieron debiles debio decada decadas
decano decia decian decida decide decidi decidido decidio decidir decima decimo decirle decirlo decirme decirse decirte decis
dedicacion dedicar dedico defecto defendido defendio definida definido dejaba dejame dejamos dejan dejando dejara dejaran dejare
dejaria dejaron dejarse dejarte dejas dejaste dejen dejes delgado demanda demasiadas demasiados demos desafio desaparece
desaparecen desaparecida desaparecidos desaparicion desayunar deseado desear deseos desierto despacho despertado desperte
desperto despido despierto desprecio destacada destacado destacando destaco detectar detenidos deudas diablo diaria diarios diaz
dibujo dices dichas diente dieran dificiles digas digo dije dijeron dile dime dinero dios dire disney disposicion disposiciones
dobles doce docentes doctor doctores dolar dolares domina dominar donald donde dont dorada dorado dormir dudo duelo duerme
durango echa echado echan echarle echaron ecuacion editar elegida elevado elevados elevar elite elites embajada embarazadas
embargo emitio empate emperador empezaba empezamos empezando empezaron empezo empeño empiece empiecen empieza empiezan empiezas
empleada empleado emplear empleo empuje encanta encantado encantan encanto encargada encargado encima encontro encuentra
encuentran encuentras encuentre encuentren encuentres encuentros energias enfermo enlace enojada enojado enseño ente entera
enteras entere entero enteros entraba entrada entrado entrando entraron entras entre entrega entregan entregar entren entrenar
entro envia envian enviar escala escalada escapa escapar escape escapo escasa escaso escena escuche escucho escudo escudos
escuela esfera espacio espada espadas espaldas españa espectro espejo espejos espera esperado esperan esperanza esperar esperas
espere esperemos esperen esperes espia espias espinas espinosa espiral esposas esquema esquina estaba estaban estacion estado
estafa estais estan estancia estando estara estaran estaras estare estaria estas estela estelar esten estero estes esther estilo
estima estomago estos estreno estres estudian estupendo estuve estuvieran estuvieron estuviese estuvo evaluacion evita evitarlo
examenes exigen externos extra faciles falda falla fallado fallar fallas falsa falsas faltan faltar faltas falto fechas fenomeno
fenomenos ferrer fibras fieles fierro fijate flecha formal france franco francos frases frecuentes frenos fresca fresco frescos
frias frio fritas frutas fruto frutos fuente fuentes fuera fueran fueras fueron fuimos fuiste gafas gallego gallegos gallina
gallinas gana ganaba ganado ganados ganamos ganan ganar ganarse gano garantia gastado gastar gasto gastos gatos general genero
geniales gentes gerente gesto grabado grabando grace grados grafico graficos gramos granada grande grandes granito granja grano
gratis gratuitos graves griega griegos gritar gritos grueso grupos gusta gustado gustan gustar gustas gustavo guste gustos haber
haberle haberme haberse haberte habiles habito hables habria hacen hacerla hacerle hacerles hacerlo hacerse hacerte haces haga
hamburguesas hara hare haria harian harias harina hasta have hechas hechos hector herido heridos hermanas hermandad hermosa
hermoso hermosos hernan heroes heroina hice hierbas hierro hilo hilos hinchas hito hizo hojas hola hombre hong horacio horarios
horas horribles horror hueco huelva huerta huesos hugo humedo implantacion importacion imposibles impresa impreso impresos
inferior informa informado informaron informo ingenio inmensa inmenso insistio insistir insisto instruccion integra intenta
intentan intentar intentas intente intento intentos interes interesa interior interna internas interno internos invento inversa
invertir invitada izquierda izquierdas jabon james japon jason jean jefa jefes jeff jeje joan jodido juana judio judios jueces
juegan juego juegos jugado juicio julia julian junior junto juntos jurado juro laboral labores laguna largos latina latino
latinos lavado lazaro league lector lectura legado lenguaje lenguas lentes levanta levantar levantarse levanto liga lima lisa
llama llamaba llamada llamado llaman llamando llamarlo llamaron llamarse llamas llame llamen llano llanto llaves llega llegado
llegan llegando llegar llegas llegue llenan llenar llenas llenos llevaba llevada llevado llevan llevando llevar llevara llevas
lleve lleven llorando llorar llueve lluvia locura logica logico logo logrado logran lograr logre logros luego lugares machado
machista macho machos madera madero madres madrid madura madurez maduro magico mago mail mala malaga maldita malestar maletas
malo mami manda mandado mandan mandando mandar mandato mande maneja manejando manejo manera maneras mango mano manta mantenia
manto manzanas mapa maraton maravillas maravillosa marcada marcado marcador marcan marcando marcas marcelo marcha marchar
marchas marcho marco marcos marea mares margen mariana mariano marina marino marinos mario marmol marta martes martha martin
masa masivo matado matan matando matanza matar mataron matas mate mateo material materias materna matias mato matriz matt maxima
maximo maya mayor mayoria mañanas mecanico medalla medallas media mediacion mediana mediano medias medica medicamentos medicinas
medicion medico medicos medida medina medios medir meditacion mejorar mejoras mejores memes memoria menor menores mensual mental
mentes mentir mercados merida merito mero mesas meta metales metas metes meti metido meto metodo metros mexicana mexico mezclado
miedos miento mierdas minera mineria minero mini mirada miseria moderada mojado molestar molesto molina molino molinos moneda
montar moral morales morelos morena morgan mortales mostro motivo movida moviendo moviles muchas muchisimas muchisimos muchos
muelle muera muere mueren muero muertas muerte muertes muertos muestra mujeres mundo murcia muscular nacida nadar nasa natal
nativa negado negar nego neta neto nido niebla niega niegan nietos nieves nina noches nocion nomina norma normales norman normas
nota notas note novela novias novios nuca nueve nuevos numero nuñez obra obsesion ocurre odio oficial oficinas oficio oficios
oidos olvida olvidan olvidar olviden olvides opera operaciones operador opinan opinar opinas optica orina orto oscuras oscuros
otorga otorgo otras otros paco paga pagado pagados pagan pagando pagar pagara pagas page pago paises paja pajaro pala palabra
palmas palo pampa pana panama panel pantalla pantallas papeles papi paquetes paradas paradero parados paraiso paran parana pardo
pare parece pareces parecia paredes parejas paren pares parezca park parker parodia parque parques parra parrafo parrilla part
partes partida partido partidos partiendo partio partir parto pasaban pasada pasadas pasados pasaje pasamos pasando pasara
pasaran pasaron pasas pascua pasear pasen paseo pases pasillo pasion pasivo pasos pasto pastor pata patada patadas patas pato
patria patron pausa pautas payaso pañuelo pecado pecados pechos pedi pedia pedido pedidos pedimos pedo pedro pega pego peleando
peleas peliculas pelo pelota penal penas pendejo pene pensado pensar pensarlo pension penso pequeña pequeño perder perdidas
perdidos perdimos perdon perdona pereira perfil periodico periodos perla perlas permiso permita pero perra perrito perros persa
persona peru peruana pesa pesada pesados pesar pese pesimo pesos petro petrolera peña piba pico pida pide pidiendo pidieron pido
piedra piedras pieles piensan piensas piense piensen pienses pierda pierdan pierdas pierdes pierdo pierna pierre pies pieza
piezas pija pila piloto pilotos pinche pinches pino pinos pinto pintor pisa piso pisos pista pistas piña placer plaga plana
plancha planea planes planos planta plantas plantilla plasma plata platos play playas plaza plazas plazos plena plumas poca
pocos podeis podian podias podra podran podras podre podria podrian podrias poesia polaco polla polo pondra pondria ponia portal
posesion posta posts potosi pozo prado precio precios precision pregunta preguntaba preguntado preguntan preguntarle preguntaron
preguntas pregunte pregunto premio premios prenda prensa preocupada preocupado preocupan preocupante preocuparse preocupes
prepara presentar presionar presiones preso presos prestado prestan previo previos prevision prieto primas prime primer primera
primero primos prisa prision privada procesion producen producida producido producto productor produjo produzca profesion
profesor profesores provocado provocan provoco proxima proximo pruebas pudiendo pudieran pudieron pudo puebla pueblo pueda
puedan puedas pueden puedes puente puentes puertas puerto puertos pues puesta puestas puesto puestos pulgadas pulso puntas punto
pura puras pureza puro puse puta putas puto putos puñado puño quedaba quedaban quedamos quedando quedara quedaran quedaria
quedarme quedarse quedarte quedas quedate queden quedes queen queja quejan quejas quemado quemar quereis querer queres querian
querias querida querido querria quiebra quienes quiera quieran quieras quieren quieres quince quinta quinto quisieran quisieron
quiso quita quitado quitan quitar quitarle quitaron quite rama ramo rana rapida rapidez rapidos raras raro rasgos rastro rata
raton raya rayo raza reaccionar reacciones receptor receta recetas recibio recibo reciente recinto recordo recreo recto rector
recuento redaccion reduccion redujo refirio refleja reflejo regalar regalo region reglas regresan regresar regrese regula
regular rejas relacion relaciona relato remedio remoto rendir reparacion reparar repetir repite repito reporte resolver respeta
respetar respeto responda responden respondio respondo retira retirado retirar retiro reto retrato retratos reunen reunido
reunidos reunieron reunio reuniones reunir revela revelado revelo riego riendo riesgos rioja roba robo robos robots roca rocas
rodillas roma romero ronda ropas rosa rosario rosas rostros rota roto rotos ruidos sabado sabeis saben saber saberlo sabes sabia
sabian sabias sabido sabiendo sabio sabra sabras sabria sacado saco sagrada sagrado sala salario saldo saldra salen sales salga
salgan salgo sali salida salidas salido saliera salimos salinas salon salones salsa salta saltar salto saluda saludo salva
salvado salvador salvar salvo sancho sandra sano segui seguia seguian seguida seguido seguira seguiran seguire seguiria segura
seguro semana semanal semanales semillas sencilla sendero sentir sepa separa sequia serena servir servira setiembre sevilla
señora siembra siendo sienta sientan sientas siente sienten sientes siesta sigues siguio simple single sintio sintoma sirven
sirviendo sistemas soberano sobre social socios sofa sofia soja sola soldados solian solida solido solos soltar sonia sonido
sonidos sonrisa soria sosa soto stock suba subasta suben subido subiendo subio subo subsidio suceda sucedio sucesos sucios
suecia sueldo sueldos suelen suelo suelta suelto suerte sueños sufrir suicida sujeta sujeto sujetos supe supera superan superar
superficie superficies supero supiera supo suponer surgio surgir tabaco tablero tacto tamaño tango tantos tapar tarda tardar
tardes tardo tarjetas tarta tasa tecnico tejido tejidos telefonia telefonos temblor teme temer temo temores temperaturas tendra
tendre teneis tenerla tenerlo tenes tenga tengan tengas tenian tenias teniendo tensiones tercer terminada terminado terminal
terminan terminara terminaron terminas termine terminen termino terminos terribles tiempos tienda tiende tienden tienen tienes
tierno tierra time tirando toalla toca tocaba tocado tocando tocar toco todas todos toledo toma tomaba tomadas tomados tomamos
toman tomara tomaron tomarse tomas tomate tomen tomes tono tonta tope toro tortuga tortura trabaja trabajado trabajan trabajando
trabajar trabajas trabaje trabajos traduce traen traera tragico traia traido traiga traigo traje trajes trama tramo trampa tras
traslado trata trataba tratado tratados tratamientos tratan tratando tratar tratarse tratas traten trato tratos trauma traves
trazado tregua tremenda trenes trigo trofeo tronco trono tropas trucos unas usas uñas vacios vago valdes valen valer valida
valido valle valles valley vano varela variados varios vasco vasos veas vecinas vecinos vegas vehiculos velas vencer vencido
vencio vendido vendra veneno vengan vengas venian venido ventas venus veran veras verbal verdades verdes vereda verlas vernos
vestido vestidos veterano vicente victor vidal vidas videos viena viendo vienen vienes viento vientre viernes vieron vigente
vigo vine viniendo vinos visa vision visita visitado visitando visito vista vistas vistazo viste vistos viuda viva vivi vivia
vivian vivido vivienda viviendas vivio vivo viña voces volviendo votado votando vuelos vuelta vuelto vuelva vuelvan vuelvas
vuelven vuelves vuelvo vuestras
"""
